//! Papers that cannot be made again: each picture on a page against the photos of the bag.

use std::fs;
use std::io::Cursor;
use std::path::{Path, PathBuf};

use image::imageops::{self, FilterType};
use image::{ImageFormat, RgbImage};
use splitcase::archive::verify::judgement::{Against, Judgement, Maker, Outcome};
use splitcase::archive::verify::verify;
use splitcase::document;
use splitcase::photo::{self, PixelBudget};

use super::made::{Made, WORKSHOP, held, manifest, pdf_of_pages, sheet};

/// A sample's photo, small so that the tests are quick.
fn sample(name: &str) -> RgbImage {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(name);
    image::open(path).unwrap().resize_exact(480, 360, FilterType::Triangle).into_rgb8()
}

fn jpeg(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Jpeg).unwrap();
    bytes.into_inner()
}

/// A print copy as another version may have made it: smaller and packed otherwise.
fn print_copy(original: &[u8]) -> RgbImage {
    let copy =
        photo::prepare(original, document::print_size(), &PixelBudget::default()).unwrap().jpeg;
    let copy = image::load_from_memory_with_format(&copy, ImageFormat::Jpeg).unwrap();
    copy.resize_exact(420, 315, FilterType::CatmullRom).into_rgb8()
}

/// A bag with two photos and a paper of another version with these pictures, one on each page.
fn sealed(made: &Made, paper: &dyn Fn(&[u8]) -> Vec<u8>) -> PathBuf {
    let folder = made.job_folder("HD-2614", "grinding");
    fs::write(folder.join("bearing.jpg"), jpeg(&sample("hd-2614/bearing-close.jpg"))).unwrap();
    fs::write(folder.join("photos/seal.jpg"), jpeg(&sample("hd-2614/grease-milky.jpg"))).unwrap();
    let manifest = String::from_utf8(manifest(&folder, "HD-2614")).unwrap();
    let manifest = manifest.replace("splitcase 0.1.0", "splitcase 0.0.9");
    let contents = [
        held("findings.yaml", sheet("HD-2614", "grinding")),
        held("workshop.yaml", WORKSHOP),
        held("papers/return-report.pdf", paper(manifest.as_bytes())),
    ];
    made.seal_with("HD-2614", &["bearing.jpg", "photos/seal.jpg"], &contents, &[], false)
}

fn judged(pictures: &[Vec<u8>]) -> Judgement {
    of_paper(&|manifest| pdf_of_pages(manifest, pictures))
}

fn of_paper(paper: &dyn Fn(&[u8]) -> Vec<u8>) -> Judgement {
    let made = Made::new();
    let bag = sealed(&made, paper);
    let maker = |_: &Path| panic!("a paper of another version is not made again");
    verify(&bag, &Against { maker: Some(Maker(&maker)), ..Against::default() })
}

fn copies() -> [RgbImage; 2] {
    ["hd-2614/bearing-close.jpg", "hd-2614/grease-milky.jpg"]
        .map(|name| print_copy(&jpeg(&sample(name))))
}

fn flaws(judged: &Judgement) -> Vec<&str> {
    judged.flaws.iter().map(|flaw| flaw.message.as_str()).collect()
}

#[test]
fn pictures_of_another_versions_paper_that_show_the_bags_photos_are_said_to() {
    let judged = judged(&copies().map(|one| jpeg(&one)));
    assert_eq!(judged.outcome(), Outcome::AgreesWithItself, "{judged:#?}");
    let said = "each of the 2 pictures on the pages of `data/papers/return-report.pdf` shows a \
                photo of this bag, by what can be seen; whether it is at its place, and what the \
                words say, was not compared";
    assert!(judged.shown.iter().any(|one| one.text == said), "{judged:#?}");
    assert!(judged.not_shown.iter().any(|one| one.code == "archive/pages-not-compared"));
}

#[test]
fn a_picture_that_was_swapped_for_another_is_named_with_its_page() {
    let [bearing, _] = copies();
    let other = sample("hd-2623/case-crack.jpg");
    let judged = judged(&[jpeg(&bearing), jpeg(&other)]);
    assert_eq!(flaws(&judged), ["a picture on its page 2 shows none of the photos of this bag"]);
    assert_eq!(judged.flaws[0].code, "archive/picture-differs");
    assert!(!judged.shown.iter().any(|one| one.code == "archive/pictures-fit"));
}

#[test]
fn a_picture_that_was_changed_in_a_part_is_named_with_its_photo() {
    let [mut bearing, grease] = copies();
    // Somebody lays a smooth patch over what is to be seen there.
    let patch = imageops::blur(&imageops::crop_imm(&bearing, 170, 120, 80, 70).to_image(), 8.0);
    imageops::replace(&mut bearing, &patch, 170, 120);
    let judged = judged(&[jpeg(&bearing), jpeg(&grease)]);
    let said = "the picture on its page 1 differs from `originals/bearing.jpg` in a part";
    assert_eq!(flaws(&judged), [said]);
}

#[test]
fn a_mirrored_picture_and_one_that_cannot_be_read_are_not_the_bags() {
    let [bearing, _] = copies();
    let mirrored = jpeg(&imageops::flip_horizontal(&bearing));
    let judged = judged(&[mirrored, b"no picture".to_vec()]);
    assert_eq!(
        flaws(&judged),
        [
            "a picture on its page 1 shows none of the photos of this bag",
            "a picture on its page 2 cannot be read"
        ]
    );
}

#[test]
fn pictures_in_another_form_are_counted_and_pages_that_cannot_be_read_are_said_so() {
    let [bearing, _] = copies();
    let pictures = [jpeg(&bearing), jpeg(&bearing)];
    let says = |from: &str, to: &str, code: &str| {
        let judged = of_paper(&|manifest| {
            let mut pdf = pdf_of_pages(manifest, &pictures);
            let at = pdf.windows(from.len()).rposition(|part| part == from.as_bytes()).unwrap();
            pdf[at..at + to.len()].copy_from_slice(to.as_bytes());
            pdf
        });
        let codes: Vec<_> = judged.not_shown.iter().map(|one| one.code).collect();
        codes.contains(&code)
    };
    assert!(!says("/DCTDecode", "/DCTDecode", "archive/other-pictures"));
    assert!(says("/DCTDecode", "/LZWDecode", "archive/other-pictures"));
    assert!(says("/Pages 4 0 R", "/Pages 9 0 R", "archive/pictures-not-compared"));
}

#[test]
fn without_a_maker_nothing_is_said_of_the_pictures() {
    let made = Made::new();
    let pictures = [jpeg(&sample("hd-2623/case-crack.jpg"))];
    let bag = sealed(&made, &|manifest| pdf_of_pages(manifest, &pictures));
    let judged = verify(&bag, &Against::default());
    assert_eq!(flaws(&judged), Vec::<&str>::new());
    assert!(!judged.shown.iter().any(|one| one.code == "archive/pictures-fit"));
}
