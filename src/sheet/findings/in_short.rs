//! Page 1 in the technician's own words.

use crate::sheet::reader::record;
use crate::sheet::text::Text;

record! {
    /// Page 1 in the technician's own words; what is left out is written from the rest of the sheet.
    pub struct InShort {
        /// The one sentence that says it all.
        lead: Option<Text>, "Water got past the drive-side seal and rusted the main bearing.";
        /// What we found.
        found: Option<Text>, "Two of four bearings rusted through, grease turned to milk.";
        /// Why it happened.
        why: Option<Text>, "A jet from a pressure washer passes the seal around the crank.";
        /// What we did.
        did: Option<Text>, "Stripped, dried and cleaned it; all bearings and both seals are new.";
        /// How it rides now.
        rides: Option<Text>, "Silent over 7 miles and 300 feet of climbing.";
    }
}
