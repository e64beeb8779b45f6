//! The editions of a paper: the same content and tags, set for paper or for a screen of a telephone.

/// What a paper is set for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Edition {
    /// The paper size of the workshop.
    #[default]
    Paper,
    /// One narrow column in large type.
    Phone,
}

impl Edition {
    /// What the templates call the size of a page; `paper` is the workshop's.
    pub fn size(self, paper: &'static str) -> &'static str {
        match self {
            Self::Paper => paper,
            Self::Phone => "phone",
        }
    }
}
