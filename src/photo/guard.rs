//! The wall around foreign decoders: a panic costs one photo, never the batch.
//!
//! Not here: aborts. A failed allocation cannot be caught, which is why sizes are checked first.

use std::panic::{AssertUnwindSafe, catch_unwind};

use crate::photo::refusal::Refusal;

/// Runs `work` and turns a panic into [`Refusal::Broken`].
///
/// What `work` captures is read only, or restores itself on drop as a permit does, so nothing half
/// done is seen afterwards.
pub(super) fn contain<T>(work: impl FnOnce() -> Result<T, Refusal>) -> Result<T, Refusal> {
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|panic| {
        let cause = panic
            .downcast_ref::<&str>()
            .copied()
            .or_else(|| panic.downcast_ref::<String>().map(String::as_str))
            .unwrap_or("no cause given");
        Err(Refusal::broken(format_args!("its decoder gave up ({cause})")))
    })
}

#[cfg(test)]
mod tests {
    use super::contain;
    use crate::photo::{PixelBudget, Refusal};

    #[test]
    fn a_panic_becomes_a_refusal_and_gives_its_permit_back() {
        let budget = PixelBudget::of(100);
        let refused = contain::<()>(|| {
            let _permit = budget.wait_for(60);
            panic!("index out of bounds");
        });
        let cause = "its decoder gave up (index out of bounds)".to_owned();
        assert_eq!(refused, Err(Refusal::Broken(cause)));
        assert_eq!(budget.free(), 100);
    }
}
