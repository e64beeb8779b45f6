//! Sharpness: plane of brightness -> variance of the Laplacian in one of its sharpest tiles.
//!
//! The variance over the whole picture says more about the subject than about its sharpness: a small
//! part on plain paper has little of it. The sharpest tiles show whether the lens was in focus on
//! anything. The third sharpest of 144 is taken, so that two hot pixels or a printed letter do not
//! are taken for the picture. Not here: how little is too little (assessment).

use super::area::Plane;

/// Tiles along each edge.
const TILES: usize = 12;

/// The tile that is taken, counted from the sharpest: at most two are sharper.
const THIRD: usize = 2;

/// Sums over one tile.
#[derive(Clone, Copy, Default)]
struct Tile {
    count: i64,
    sum: i64,
    squares: i64,
}

impl Tile {
    /// Adds a stretch of a line: `line` reaches one pixel further than its neighbours on both sides.
    fn add(&mut self, line: &[u8], above: &[u8], below: &[u8]) {
        let (mut sum, mut squares) = (0_i32, 0_i64);
        let stretch = line.iter().zip(&line[1..]).zip(&line[2..]).zip(above.iter().zip(below));
        for (((left, middle), right), (above, below)) in stretch {
            let [left, right, above, below] = [left, right, above, below].map(|v| i32::from(*v));
            let laplacian = left + right + above + below - 4 * i32::from(*middle);
            sum += laplacian;
            squares += i64::from(laplacian * laplacian);
        }
        self.count += above.len() as i64;
        self.sum += i64::from(sum);
        self.squares += squares;
    }

    /// Population variance, cut to a whole number.
    fn variance(&self) -> u32 {
        let spread = self.count * self.squares - self.sum * self.sum;
        (spread / (self.count * self.count).max(1)) as u32
    }
}

/// The sharpness of `plane`; 0 if it is smaller than 3 x 3.
pub(super) fn of(plane: &Plane) -> u32 {
    let (width, height) = (plane.width, plane.height);
    if width < 3 || height < 3 {
        return 0;
    }
    let mut tiles = vec![Tile::default(); TILES * TILES];
    // The first inner column or row of each tile: place `x` belongs to tile `x * TILES / inner`.
    let starts = |inner: usize| (0..=TILES).map(move |tile| (tile * inner).div_ceil(TILES));
    let columns: Vec<usize> = starts(width - 2).collect();
    let lines: Vec<&[u8]> = plane.values.chunks_exact(width).collect();
    for (y, three) in lines.windows(3).enumerate() {
        let [above, line, below] = three else { continue };
        let row = y * TILES / (height - 2) * TILES;
        for (tile, ends) in tiles[row..].iter_mut().zip(columns.windows(2)) {
            let [start, end] = *ends else { continue };
            let (above, below) = (&above[start + 1..=end], &below[start + 1..=end]);
            tile.add(&line[start..end + 2], above, below);
        }
    }
    let mut variances: Vec<u32> = tiles.iter().map(Tile::variance).collect();
    variances.sort_unstable();
    variances.into_iter().rev().nth(THIRD).unwrap_or_default()
}
