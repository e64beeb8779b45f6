//! File names that the sheet spells in other letters than the folder: `img_4101.jpg` for
//! `IMG_4101.JPG`. In: the sheet's names; out: the folder's, if only one file can be meant.

use super::{JobFolder, composed};
use crate::sheet::findings::FindingsSheet;

impl JobFolder {
    /// Gives every file that the sheet names the letters that it has in the folder.
    pub fn spell_names(&self, fields: &mut FindingsSheet) {
        let names: Vec<String> = self.files.iter().map(|file| composed(&file.name)).collect();
        for name in fields.file_names_mut().filter(|name| !names.contains(&name.0)) {
            let typed = name.0.to_lowercase();
            let mut alike = names.iter().filter(|own| own.to_lowercase() == typed);
            if let (Some(own), None) = (alike.next(), alike.next()) {
                name.0.clone_from(own);
            }
        }
    }
}
