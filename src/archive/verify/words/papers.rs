//! What was found of papers, and what that does not show, in words.
//!
//! Facts -> [`Statement`]s. Not here: flaws (`archive::problems`), the checks.

use super::Statement;
use crate::archive::bag::names;

/// A paper lists the material beside it.
pub fn paper_fits(paper: &str, photos: usize) -> Statement {
    let paper = names::shown(paper);
    let text = match photos {
        0 => format!("`{paper}` lists this findings sheet"),
        1 => format!("`{paper}` lists this photo and this findings sheet"),
        _ => format!("`{paper}` lists these {photos} photos and this findings sheet"),
    };
    Statement::new("archive/paper-fits", text)
}

/// What a paper tells of earlier visits is the file beside it.
pub fn visits_fit(paper: &str) -> Statement {
    let text = format!(
        "`{}` lists these `earlier-visits.json`, from which it tells of earlier visits; the sheets of \
         those visits are not here and were not compared",
        names::shown(paper)
    );
    Statement::new("archive/visits-fit", text)
}

/// Earlier visits lie here and a paper does not list them.
pub fn visits_not_listed(paper: &str) -> Statement {
    let text = format!(
        "`{}` does not list the `earlier-visits.json` that are here: nothing says where they are from",
        names::shown(paper)
    );
    Statement::new("archive/visits-not-listed", text)
}

/// Code of what says that pages were not compared.
pub const NOT_COMPARED: &str = "archive/pages-not-compared";

/// Each picture on the pages of a paper shows a photo of the bag.
pub fn pictures_fit(paper: &str, pictures: usize) -> Statement {
    let paper = names::shown(paper);
    let pictures = match pictures {
        1 => "the one picture".to_owned(),
        _ => format!("each of the {pictures} pictures"),
    };
    let text = format!(
        "{pictures} on the pages of `{paper}` shows a photo of this bag, by what can be seen; \
         whether it is at its place, and what the words say, was not compared"
    );
    Statement::new("archive/pictures-fit", text)
}

/// The pictures of a paper were not compared either.
pub fn pictures_not_compared(paper: &str, why: &str) -> Statement {
    let paper = names::shown(paper);
    let text = format!("the pictures on the pages of `{paper}` were not compared either: {why}");
    Statement::new("archive/pictures-not-compared", text)
}

/// Pictures of a paper that are not photos by their form.
pub fn other_pictures(paper: &str, pictures: usize) -> Statement {
    let paper = names::shown(paper);
    let text = match pictures {
        1 => format!("one picture on the pages of `{paper}` is not a JPEG and was not compared"),
        _ => format!(
            "{pictures} pictures on the pages of `{paper}` are not JPEG and were not compared"
        ),
    };
    Statement::new("archive/other-pictures", text)
}

/// The pages of a paper were not compared with what it lists.
pub fn pages_not_compared(paper: &str, why: &str) -> Statement {
    let text = format!(
        "the pages of `{}` were not compared with what it lists, and could show something else: \
         {why}",
        names::shown(paper)
    );
    Statement::new(NOT_COMPARED, text)
}

/// The pages of this many papers were not compared.
pub fn pages_of_archive(papers: usize) -> Statement {
    let text = match papers {
        1 => "the pages of one paper were not compared with what it lists, and could show \
              something else: verify the bag alone"
            .to_owned(),
        _ => format!(
            "the pages of {papers} papers were not compared with what they list, and could show \
             something else: verify the bags one by one"
        ),
    };
    Statement::new(NOT_COMPARED, text)
}

/// A paper was made again from the bag, with the same bytes.
pub fn made_again(paper: &str) -> Statement {
    let text = format!(
        "`{}` was made again from this bag's sheet, profile and photos: the same bytes",
        names::shown(paper)
    );
    Statement::new("archive/made-again", text)
}

/// The sheet that a paper carries is the one that its manifest lists.
pub fn carried_sheet(paper: &str) -> Statement {
    let text =
        format!("the findings sheet that `{}` carries is the one it lists", names::shown(paper));
    Statement::new("archive/carried-sheet", text)
}

/// A paper that is older than the sheet beside it, as its bag says; `photos` are those that fit.
pub fn earlier_paper(paper: &str, photos: usize) -> Statement {
    let text = match photos {
        0 => "its text rests on the earlier sheet",
        _ => "it lists the photos that are here, its text rests on the earlier sheet",
    };
    let paper = names::shown(paper);
    let text =
        format!("the paper `{paper}` was issued before the sheet beside it was changed: {text}");
    Statement::new("archive/earlier-paper", text)
}

/// A paper without a manifest.
pub fn paper_silent(paper: &str, cause: &str) -> Statement {
    let paper = names::shown(paper);
    let text = format!(
        "nothing is known of what `{paper}` was made from, so its pages could show anything: {cause}"
    );
    Statement::new("archive/paper-silent", text)
}

/// Photos beside those that a paper knows.
pub fn unknown_photos(paper: &str, paths: &[&str]) -> Statement {
    let text = format!("`{}` knows nothing of {}", names::shown(paper), names::named(paths));
    Statement::new("archive/unknown-photo", text)
}

/// The PDF is a sealed one.
pub fn same_paper(paper: &str) -> Statement {
    let text = format!("the PDF has the same bytes as `{}` in the bag", names::shown(paper));
    Statement::new("archive/same-paper", text)
}

/// The PDF cannot be compared with a sealed one, as there is none.
pub fn no_paper_sealed() -> Statement {
    let text = "there is no PDF in a bag to hold this one against: what its pages show was not \
                compared";
    Statement::new("archive/no-paper", text)
}

/// The bag that a paper was found in.
pub fn bag_of_paper(bag: &str) -> Statement {
    let text =
        format!("the bag `{}` holds a paper with the same list of material", names::shown(bag));
    Statement::new("archive/bag-of-paper", text)
}

/// The digest that is printed on a paper.
pub fn paper_digest(job: &str, digest: &str) -> Statement {
    let job = names::shown(job);
    let text = format!("the PDF says of itself: job `{job}`, digest of its material `{digest}`");
    Statement::new("archive/paper-digest", text)
}

/// Papers of an archive list the material beside them.
pub fn all_papers(papers: usize) -> Statement {
    let text = match papers {
        1 => "one paper lists the photos and the sheet that are with it".to_owned(),
        _ => format!("{papers} papers list the photos and the sheets that are with them"),
    };
    Statement::new("archive/papers-fit", text)
}

/// The owner's copy holds no originals.
pub fn owners_copy(has_photos: bool) -> Statement {
    let text = match has_photos {
        true => {
            "this is an owner's copy: its photos have no metadata, so they are not those that the \
             paper lists, and were not compared with them; the workshop's own bag holds the \
             originals"
        }
        false => {
            "this is an owner's copy, without photos; the workshop's own bag holds what the paper \
             lists"
        }
    };
    Statement::new("archive/owners-copy", text)
}

/// The copy for handing over holds the originals and the sheet as issued.
pub fn handover_copy() -> Statement {
    let text = "this is a copy for handing over: its photos are the originals, its sheet is the one that \
                the customer has, without remarks for the workshop alone; the workshop's own bag holds \
                the sheet that the papers were made from";
    Statement::new("archive/handover-copy", text)
}

/// The workshop's bag that belongs to an owner's copy was looked for.
pub fn workshops_bag_found(bag: &str) -> Statement {
    let text = format!("the workshop's bag that belongs to the owner's copy: found, `{bag}`");
    Statement::new("archive/workshops-bag", text)
}
