//! Numbers that look like chance and are the same in every run.

/// A row of numbers from a seed (a linear congruential generator, its upper bits).
pub struct Chance(u64);

impl Chance {
    /// The row of a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number below a limit.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % limit
    }
}

/// First, last and this many other places of something this long; all where it is short.
pub fn places(length: usize, many: usize, chance: &mut Chance) -> Vec<usize> {
    if length <= many + 2 {
        return (0..length).collect();
    }
    let mut places = vec![0, length - 1];
    places.extend((0..many).map(|_| chance.below(length)));
    places
}
