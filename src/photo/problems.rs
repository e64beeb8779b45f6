//! Every message of the photo stage, with its code. The causes are worded by the refusal itself.

use crate::diagnostic::{Diagnostic, Place};
use crate::photo::refusal::Refusal;

/// A photo that cannot be shown: an error if the sheet uses it, else a warning.
pub fn refused(place: Place, name: &str, refusal: &Refusal, is_used: bool) -> Diagnostic {
    let (code, hint) = match refusal {
        // A photo without a single byte.
        Refusal::Empty => ("photo/empty", "copy it from the phone once more"),
        // A photo with more bytes or pixels than are read.
        Refusal::TooLarge { .. } | Refusal::TooManyPixels { .. } => (
            "photo/too-large",
            "save a smaller copy beside it and name that one; keep the original",
        ),
        // A file that is not a photo, whatever its name says.
        Refusal::NotAPicture(_) => {
            ("photo/no-picture", "copy the photo once more, or take it off the sheet")
        }
        // A photo of a kind that is not read.
        Refusal::Unsupported(_) | Refusal::Variant(_) => {
            ("photo/unsupported", "save it as JPEG beside the original and name that one")
        }
        // A photo whose decoder gave up.
        Refusal::Broken(_) => {
            ("photo/broken", "copy it from the phone once more, or take it off the sheet")
        }
    };
    let message = format!("`{name}` cannot be shown: {refusal}");
    if is_used {
        Diagnostic::error(code, place, message).hint(hint)
    } else {
        Diagnostic::warning(code, place, message)
            .hint("no finding uses it, so the papers are made without it")
    }
}

/// A photo that is cut short but can be shown in part.
pub fn damaged(place: Place, name: &str) -> Diagnostic {
    Diagnostic::warning(
        "photo/damaged",
        place,
        format!("the file `{name}` is damaged or cut short"),
    )
    .hint("copy it from the phone once more; until then the missing part is grey")
}

/// Something under a photo's name that is not taken.
pub fn left_out(place: Place) -> Diagnostic {
    let message = "this is called a photo and is left out: it is not a plain file of this folder";
    Diagnostic::warning("photo/left-out", place, message)
        .hint("put the photo itself there, not a link, a pipe or a name with unseen characters")
}
