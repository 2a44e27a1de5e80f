/// A small deterministic source of random numbers (SplitMix64): the same seed gives the same plans on every machine.
#[derive(Clone, Debug)]
pub struct Random(u64);

impl Random {
    /// The source for one plan of a run.
    #[must_use]
    pub fn for_plan(seed: u64, index: u64) -> Self {
        let mut random = Self(seed ^ index.wrapping_mul(0xD1B5_4A32_D192_ED03));
        random.next();
        random
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn whole(&mut self, low: i64, high: i64) -> i64 {
        let count = high.abs_diff(low) + 1;
        low.saturating_add_unsigned(self.next() % count)
    }

    /// True so often in a hundred.
    pub fn in_hundred(&mut self, times: i64) -> bool {
        self.whole(1, 100) <= times
    }

    /// One of several.
    ///
    /// # Panics
    /// When there is none.
    pub fn one_of<T: Copy>(&mut self, choices: &[T]) -> T {
        let last = i64::try_from(choices.len()).expect("a list fits in memory") - 1;
        let at = usize::try_from(self.whole(0, last)).expect("there is something to choose from");
        choices[at]
    }
}
