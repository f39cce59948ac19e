//! A PDF read back by a reader that has no part in writing it.

use kurbo::{Affine, BezPath, Point, Shape as _};
use lopdf::content::Content;
use lopdf::{Document, Object};

/// Points of a PDF in a millimetre: 72 to the inch (ISO 32000-1, 8.3.2.3).
pub const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// A PDF.
pub struct Pdf(Document);

impl Pdf {
    pub fn read(bytes: &[u8]) -> Self {
        Self(Document::load_mem(bytes).expect("a PDF"))
    }

    pub fn pages(&self) -> u32 {
        u32::try_from(self.0.get_pages().len()).unwrap()
    }

    /// The text of a page, without what parts words.
    pub fn text(&self, page: u32) -> String {
        packed(&self.0.extract_text(&[page]).expect("text"))
    }

    /// The page's size in millimetres.
    pub fn size_mm(&self, page: u32) -> (f64, f64) {
        let id = self.0.get_pages()[&page];
        let page = self.0.get_dictionary(id).unwrap();
        let corners = page.get(b"MediaBox").unwrap().as_array().unwrap();
        let at = |place: usize| number(&corners[place]) / POINTS_PER_MM;
        (at(2) - at(0), at(3) - at(1))
    }

    /// Every path that a page strokes or fills, in millimetres from its lower left corner.
    pub fn paths_mm(&self, page: u32) -> Vec<BezPath> {
        let id = self.0.get_pages()[&page];
        let content = self.0.get_page_content(id);
        let content = Content::decode(&content).expect("operations");
        let mut paths = Vec::new();
        let mut map = Affine::scale(1.0 / POINTS_PER_MM);
        let mut kept = Vec::new();
        let mut path = BezPath::new();
        for operation in &content.operations {
            let at: Vec<f64> = operation.operands.iter().map(number).collect();
            let place = |first: usize| map * Point::new(at[first], at[first + 1]);
            match operation.operator.as_str() {
                "q" => kept.push(map),
                "Q" => map = kept.pop().expect("balanced"),
                "cm" => map *= Affine::new([at[0], at[1], at[2], at[3], at[4], at[5]]),
                "m" => path.move_to(place(0)),
                "l" => path.line_to(place(0)),
                "c" => path.curve_to(place(0), place(2), place(4)),
                "h" => path.close_path(),
                "re" => {
                    let to = Point::new(at[0] + at[2], at[1] + at[3]);
                    let rect = kurbo::Rect::from_points(Point::new(at[0], at[1]), to);
                    path.extend(map * rect.to_path(0.1));
                }
                "S" | "s" | "f" | "f*" | "F" | "B" | "b" => paths.push(std::mem::take(&mut path)),
                "n" => path = BezPath::new(),
                _ => {}
            }
        }
        paths
    }

    /// The names in the outline, in their order, those of pages within a chapter after it.
    pub fn outline(&self) -> Vec<String> {
        let outlines = self.0.catalog().unwrap().get(b"Outlines").unwrap();
        let mut names = Vec::new();
        self.outline_of(outlines, &mut names);
        names
    }

    fn outline_of(&self, object: &Object, names: &mut Vec<String>) {
        let (_, object) = self.0.dereference(object).unwrap();
        let entry = object.as_dict().unwrap();
        if let Ok(title) = entry.get(b"Title") {
            names.push(lopdf::decode_text_string(title).unwrap());
        }
        for next in [b"First".as_slice(), b"Next"] {
            if let Ok(next) = entry.get(next) {
                self.outline_of(next, names);
            }
        }
    }

    /// An entry of the catalog or of what it names, for looking whether it is there.
    pub fn catalog(&self, name: &str) -> Option<&Object> {
        self.0.catalog().unwrap().get(name.as_bytes()).ok()
    }

    /// The title of the document.
    pub fn title(&self) -> String {
        let info = self.0.trailer.get(b"Info").unwrap();
        let (_, info) = self.0.dereference(info).unwrap();
        let title = info.as_dict().unwrap().get(b"Title").unwrap();
        lopdf::decode_text_string(title).unwrap()
    }

    /// How the tags of all it holds are called, each with its text for figures.
    pub fn tags(&self) -> Vec<(String, Option<String>)> {
        let objects = self.0.objects.values();
        objects
            .filter_map(|object| {
                let entry = object.as_dict().ok()?;
                let kind = entry.get(b"S").ok()?.as_name().ok()?;
                entry.get(b"P").ok()?;
                let told = entry.get(b"Alt").ok();
                let told = told.map(|told| lopdf::decode_text_string(told).unwrap());
                Some((String::from_utf8_lossy(kind).into_owned(), told))
            })
            .collect()
    }
}

/// A text without what parts its words.
pub fn packed(text: &str) -> String {
    text.split_whitespace().collect()
}

fn number(object: &Object) -> f64 {
    object.as_float().map_or(f64::NAN, f64::from)
}
