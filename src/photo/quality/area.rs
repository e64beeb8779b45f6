//! A plane of brightness, and making it smaller by exact area averages.
//!
//! A pixel of the small plane is the mean of the area that it covers, edge pixels by their covered
//! share, rounded half up: whole numbers only. Not here: scaling for print, which is Lanczos (scale).

/// Brightness of a picture: rows from top to bottom, `width * height` values.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Plane {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) values: Vec<u8>,
}

/// A value of the large plane that a small one covers, and how much of it.
struct Share {
    from: usize,
    part: u32,
}

impl Plane {
    /// The plane itself if its long edge is at most `edge`, else scaled to it in shape.
    pub(super) fn within(&self, edge: u32) -> Self {
        let (long, edge) = (self.width.max(self.height), edge as usize);
        if long <= edge {
            return self.clone();
        }
        let scaled = |own: usize| ((own * edge * 2 + long) / (long * 2)).max(1);
        self.averaged(scaled(self.width), scaled(self.height))
    }

    /// The plane at `width` x `height`, at least 1 x 1.
    pub(super) fn averaged(&self, width: usize, height: usize) -> Self {
        let (columns, rows) = (shares(self.width, width), shares(self.height, height));
        let whole = ((self.width * self.height) as u64).max(1);
        let mut values = Vec::with_capacity(width * height);
        // A sum stays below 256 times the height, which fits.
        let mut sums = vec![0_u32; self.width];
        for row in &rows {
            sums.fill(0);
            for share in row {
                let line = self.values.get(share.from * self.width..).unwrap_or_default();
                sums.iter_mut().zip(line).for_each(|(sum, v)| *sum += share.part * u32::from(*v));
            }
            values.extend(columns.iter().map(|column| {
                let sum: u64 = column
                    .iter()
                    .map(|share| u64::from(sums[share.from]) * u64::from(share.part))
                    .sum();
                ((sum * 2 + whole) / (whole * 2)) as u8
            }));
        }
        Self { width, height, values }
    }
}

/// For each of `small` values, which of `large` values it covers. One large value is `small` parts
/// long, one small value `large` parts, so that both edges are whole numbers.
fn shares(large: usize, small: usize) -> Vec<Vec<Share>> {
    (0..small)
        .map(|at| {
            let (start, end) = (at * large, (at + 1) * large);
            (start / small..end.div_ceil(small))
                .map(|from| {
                    let part = end.min((from + 1) * small) - start.max(from * small);
                    Share { from, part: part as u32 }
                })
                .collect()
        })
        .collect()
}
