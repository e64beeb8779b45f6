//! What is drawn on the pages of a PDF, read from their content streams by a reader that is not ours.
//!
//! In: the bytes of a PDF; out: marks in the order in which they are painted, in points from the lower left
//! of their page. Of clipping the rectangle around the path is taken. Colours are sRGB, as the papers declare
//! them. (ISO 32000-1:2008, 8.3 to 8.10 and 9.4.)

use hayro_syntax::Pdf;
use hayro_syntax::content::{Instruction, UntypedIter};
use hayro_syntax::object::{Array, Dict, Name, Number, Object, Stream};
use hayro_syntax::page::Resources;

/// A millimetre in points.
pub const MM: f64 = 72.0 / 25.4;

/// What a mark is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Letters of a size in points; the box of the mark is the point where they begin.
    Letters(f64),
    /// A filled path.
    Filled,
    /// A line along a path, of a width in points; the box of the mark is that of its middle.
    Stroked(f64),
    /// A picture of pixels.
    Picture,
}

/// Something that is drawn.
#[derive(Clone, Debug)]
pub struct Mark {
    /// Its page, from 1.
    pub page: usize,
    pub kind: Kind,
    /// Left, bottom, right and top, as if nothing were clipped.
    pub place: [f64; 4],
    /// The same of what is seen of it.
    pub seen: [f64; 4],
    /// Red, green and blue; `None` for a pattern or a picture.
    pub colour: Option<[u8; 3]>,
    /// True if the path has curves.
    pub is_curved: bool,
}

impl Mark {
    pub fn width(&self) -> f64 {
        self.place[2] - self.place[0]
    }

    pub fn height(&self) -> f64 {
        self.place[3] - self.place[1]
    }

    pub fn holds(&self, page: usize, (x, y): (f64, f64)) -> bool {
        let [left, bottom, right, top] = self.seen;
        self.page == page && left <= x && x <= right && bottom <= y && y <= top
    }
}

type Matrix = [f64; 6];

fn times(a: Matrix, b: Matrix) -> Matrix {
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

const AS_IT_IS: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];

#[derive(Clone)]
struct State {
    matrix: Matrix,
    fill: Option<[u8; 3]>,
    line: Option<[u8; 3]>,
    width: f64,
    font: f64,
    clip: [f64; 4],
}

const UNCLIPPED: [f64; 4] = [f64::MIN, f64::MIN, f64::MAX, f64::MAX];

fn shared(a: [f64; 4], b: [f64; 4]) -> [f64; 4] {
    [a[0].max(b[0]), a[1].max(b[1]), a[2].min(b[2]), a[3].min(b[3])]
}

/// The rectangle around points.
fn around(points: &[(f64, f64)]) -> [f64; 4] {
    let least = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).fold(f64::MAX, f64::min);
    let most = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).fold(f64::MIN, f64::max);
    [least(|p| p.0), least(|p| p.1), most(|p| p.0), most(|p| p.1)]
}

struct Walk {
    page: usize,
    state: State,
    kept: Vec<State>,
    text: Matrix,
    path: Vec<(f64, f64)>,
    is_curved: bool,
    clips: bool,
    marks: Vec<Mark>,
}

/// Everything that is drawn in a PDF.
pub fn marks(bytes: &[u8]) -> Vec<Mark> {
    let pdf = Pdf::new(bytes.to_vec()).unwrap();
    let mut all = Vec::new();
    for (at, page) in pdf.pages().iter().enumerate() {
        let black = Some([0; 3]);
        let state = State {
            matrix: AS_IT_IS,
            fill: black,
            line: black,
            width: 1.0,
            font: 0.0,
            clip: UNCLIPPED,
        };
        let mut walk = Walk {
            page: at + 1,
            state,
            kept: Vec::new(),
            text: AS_IT_IS,
            path: Vec::new(),
            is_curved: false,
            clips: false,
            marks: Vec::new(),
        };
        walk.stream(page.page_stream().unwrap(), page.resources());
        all.append(&mut walk.marks);
    }
    all
}

fn numbers(instruction: &Instruction<'_, '_>) -> Vec<f64> {
    let number = |object: &Object<'_>| match object {
        Object::Number(number) => Some(number.as_f64()),
        _ => None,
    };
    instruction.operands().filter_map(number).collect()
}

/// A colour of one or three parts from 0 to 1; a pattern has none.
fn colour(parts: &[f64]) -> Option<[u8; 3]> {
    let byte = |part: f64| (part * 255.0).round() as u8;
    match parts {
        [grey] => Some([byte(*grey); 3]),
        [red, green, blue] => Some([byte(*red), byte(*green), byte(*blue)]),
        [] => None,
        _ => panic!("a colour of {} parts", parts.len()),
    }
}

impl Walk {
    fn stream(&mut self, content: &[u8], resources: &Resources<'_>) {
        let mut instructions = UntypedIter::new(content);
        while let Some(instruction) = instructions.next() {
            let of = numbers(&instruction);
            match &**instruction.operator {
                b"q" => self.kept.push(self.state.clone()),
                b"Q" => self.state = self.kept.pop().unwrap(),
                b"cm" => self.state.matrix = times(of.try_into().unwrap(), self.state.matrix),
                b"w" => self.state.width = of[0],
                b"g" | b"rg" | b"sc" | b"scn" => self.state.fill = colour(&of),
                b"G" | b"RG" | b"SC" | b"SCN" => self.state.line = colour(&of),
                b"BT" => self.text = AS_IT_IS,
                b"Tf" => self.state.font = of[0],
                b"Tm" => self.text = of.try_into().unwrap(),
                b"Td" => self.text = times([1.0, 0.0, 0.0, 1.0, of[0], of[1]], self.text),
                b"Tj" | b"TJ" => self.letters(),
                b"m" | b"l" => self.points(&of),
                b"c" => {
                    self.is_curved = true;
                    self.points(&of);
                }
                b"re" => {
                    let (x, y, w, h) = (of[0], of[1], of[2], of[3]);
                    self.points(&[x, y, x + w, y, x + w, y + h, x, y + h]);
                }
                b"f" | b"f*" => self.paint(true, false),
                b"S" | b"s" => self.paint(false, true),
                b"B" | b"B*" | b"b" | b"b*" => self.paint(true, true),
                b"n" => self.paint(false, false),
                b"W" | b"W*" => self.clips = true,
                b"Do" => {
                    let Some(Object::Name(name)) = instruction.operands().next() else {
                        panic!("an object without a name")
                    };
                    self.object(&resources.get_x_object(name).unwrap(), resources);
                }
                // What would change a size or a place and is not read here must not go by unseen.
                b"T*" | b"TD" | b"'" | b"\"" | b"Tz" | b"v" | b"y" | b"k" | b"K" => {
                    panic!("{:?} is not read here", instruction.operator)
                }
                _ => {}
            }
        }
    }

    fn at(matrix: Matrix, (x, y): (f64, f64)) -> (f64, f64) {
        (matrix[0] * x + matrix[2] * y + matrix[4], matrix[1] * x + matrix[3] * y + matrix[5])
    }

    fn points(&mut self, of: &[f64]) {
        let points = of.chunks(2).map(|pair| Self::at(self.state.matrix, (pair[0], pair[1])));
        let points: Vec<(f64, f64)> = points.collect();
        self.path.extend(points);
    }

    fn mark(&mut self, kind: Kind, points: &[(f64, f64)], colour: Option<[u8; 3]>) {
        let place = around(points);
        let seen = shared(place, self.state.clip);
        let (page, is_curved) = (self.page, self.is_curved);
        self.marks.push(Mark { page, kind, place, seen, colour, is_curved });
    }

    fn letters(&mut self) {
        let matrix = times(self.text, self.state.matrix);
        let size = self.state.font * matrix[2].hypot(matrix[3]);
        let start = Self::at(matrix, (0.0, 0.0));
        self.mark(Kind::Letters(size), &[start], self.state.fill);
    }

    fn paint(&mut self, fills: bool, strokes: bool) {
        let path = std::mem::take(&mut self.path);
        if fills {
            self.mark(Kind::Filled, &path, self.state.fill);
        }
        if strokes {
            let matrix = self.state.matrix;
            let width = self.state.width * matrix[2].hypot(matrix[3]);
            self.mark(Kind::Stroked(width), &path, self.state.line);
        }
        self.is_curved = false;
        if std::mem::take(&mut self.clips) {
            self.state.clip = shared(self.state.clip, around(&path));
        }
    }

    /// A picture, or a drawing that is kept as an object of its own.
    fn object(&mut self, stream: &Stream<'_>, around: &Resources<'_>) {
        let kind = stream.dict().get::<Name<'_>>("Subtype").unwrap();
        if kind.as_str() == "Image" {
            let corners = [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)];
            let corners = corners.map(|corner| Self::at(self.state.matrix, corner));
            return self.mark(Kind::Picture, &corners, None);
        }
        let before = (self.state.clone(), self.kept.len());
        if let Some(own) = stream.dict().get::<Array<'_>>("Matrix") {
            let own: Vec<f64> = own.iter::<Number>().map(|number| number.as_f64()).collect();
            self.state.matrix = times(own.try_into().unwrap(), self.state.matrix);
        }
        let own = stream.dict().get::<Dict<'_>>("Resources").unwrap_or_default();
        let content = stream.decoded().unwrap();
        self.stream(&content, &Resources::from_parent(own, around.clone()));
        assert_eq!(self.kept.len(), before.1, "a drawing leaves a state behind");
        self.state = before.0;
    }
}
