//! The wall around foreign decoders: a panic costs one photo, never the batch.
//!
//! Not here: aborts. A failed allocation cannot be caught, which is why sizes are checked first.

use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};

use crate::failure::fault;
use crate::photo::refusal::Refusal;

/// Runs `work` and turns a decoder's panic into [`Refusal::Broken`].
///
/// A panic in our own source is a fault of ours and goes on: no photo is blamed for it. What `work`
/// captures is read only, or restores itself on drop as a permit does, so nothing half done is seen
/// afterwards.
pub(super) fn contain<T>(work: impl FnOnce() -> Result<T, Refusal>) -> Result<T, Refusal> {
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|cause| {
        let place = fault::take();
        if place.as_deref().is_some_and(fault::is_own) {
            fault::keep(place);
            resume_unwind(cause);
        }
        let words = fault::words(&*cause);
        Err(Refusal::broken(format_args!("its decoder gave up ({words})")))
    })
}

#[cfg(test)]
mod tests {
    use super::contain;
    use crate::failure::fault;
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

    #[test]
    fn a_fault_of_ours_is_not_blamed_on_a_photo() {
        let caught = std::panic::catch_unwind(|| {
            contain::<()>(|| {
                // What the program's hook would do for a panic in this crate.
                fault::keep(Some("src/photo/scale.rs:7".to_owned()));
                std::panic::resume_unwind(Box::new("a slip"));
            })
        });
        let words = caught.map_err(|caught| fault::words(&*caught)).err();
        assert_eq!(words.as_deref(), Some("a slip (at src/photo/scale.rs:7)"));
    }
}
