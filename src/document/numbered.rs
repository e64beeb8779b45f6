//! Pages with their feet: a paper is set once, and gets the feet when the number of its pages is known.
//!
//! A layout that asks Typst for the last page's number is set twice, as there is none the first time. So
//! `report-templates/shared/frame.typ` gives the foot as a function of page and pages, marked `<foot>`,
//! and it is laid over each page here. A layout without one is set as Typst sets it.

use comemo::Track;
use typst::diag::SourceResult;
use typst::engine::Engine;
use typst::foundations::{Content, Context, Func, Label, Output, StyleChain, Target, Value};
use typst::introspection::{Introspector, Locator, MetadataElem};
use typst::layout::{Axes, Point, Region};
use typst::model::Document;
use typst::utils::PicoStr;
use typst_layout::{PagedDocument, layout_document, layout_frame};

/// What a layout marks its foot with.
const FOOT: &str = "foot";

/// Pages with their feet.
pub struct Numbered(pub PagedDocument);

impl Output for Numbered {
    fn target() -> Target {
        Target::Paged
    }

    fn introspector(&self) -> &dyn Introspector {
        self.0.introspector().as_ref()
    }

    fn create(engine: &mut Engine, content: &Content, styles: StyleChain) -> SourceResult<Self> {
        let bare = layout_document(engine, content, styles)?;
        let Some(foot) = foot(&bare) else { return Ok(Self(bare)) };
        let count = bare.pages().len();
        let mut places = Locator::root().split();
        let mut pages = Vec::with_capacity(count);
        for (at, bare) in bare.pages().iter().enumerate() {
            let mut page = bare.clone();
            let foot = foot.call(engine, Context::none().track(), [at + 1, count])?.display();
            let region = Region::new(page.frame.size(), Axes::splat(true));
            let foot = layout_frame(engine, &foot, places.next(&(FOOT, at)), styles, region)?;
            page.frame.push_frame(Point::zero(), foot);
            pages.push(page);
        }
        Ok(Self(PagedDocument::new(pages.into_iter().collect(), bare.info().clone())))
    }
}

/// The function that makes the foot, if the layout has one.
fn foot(document: &PagedDocument) -> Option<Func> {
    let label = Label::new(PicoStr::intern(FOOT))?;
    let marked = document.introspector().query_label(label).ok()?;
    match &marked.to_packed::<MetadataElem>()?.value {
        Value::Func(foot) => Some(foot.clone()),
        _ => None,
    }
}
