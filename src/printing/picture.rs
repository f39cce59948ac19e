//! Pictures of a unit as SVG, PNG or PDF.

use std::path::Path;

use crate::analysis::Solved;
use crate::command::Problem;
use crate::drawing::{
    LensChoice, NoPicture, Page, PdfBook, PictureView, Sheet, SideView, Standing, Theme,
    plate_sheet, to_png, to_svg, view_picture,
};
use crate::store;
use crate::units::System;

/// What a picture is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureFormat {
    /// Lines and words (W3C SVG 1.1).
    Svg,
    /// Pixels.
    Png,
    /// A page.
    Pdf,
}

impl PictureFormat {
    /// The format that a file's ending asks for; none for another ending.
    #[must_use]
    pub fn of(file: &Path) -> Option<Self> {
        let ending = file.extension()?.to_string_lossy().to_lowercase();
        match ending.as_str() {
            "svg" => Some(Self::Svg),
            "png" => Some(Self::Png),
            "pdf" => Some(Self::Pdf),
            _ => None,
        }
    }
}

/// How many pixels a picture gets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Resolution {
    /// As many as serve a screen and a report.
    #[default]
    Usual,
    /// So many across.
    Width(u32),
    /// So many to the inch.
    Dpi(u32),
}

impl Resolution {
    /// What was asked for: a width or pixels to the inch.
    #[must_use]
    pub fn of(width: Option<u32>, dpi: Option<u32>) -> Self {
        width
            .map(Self::Width)
            .or(dpi.map(Self::Dpi))
            .unwrap_or_default()
    }

    /// Pixels for a paper unit, of which there are 96 to the inch.
    pub(super) fn per_unit(self, sheet: &Sheet) -> f64 {
        match self {
            Self::Usual => 2.0,
            Self::Width(pixels) => f64::from(pixels) / sheet.window.width(),
            Self::Dpi(dpi) => f64::from(dpi) / 96.0,
        }
    }
}

/// Which picture, and how it looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PictureAsked {
    /// One picture by itself; none for the page with the unit, its lens and its numbers.
    pub view: Option<PictureView>,
    /// The size of that page.
    pub page: Page,
    /// How many pixels a PNG gets.
    pub resolution: Resolution,
    /// Without the paper's colour behind it.
    pub is_clear: bool,
    /// Light or dark.
    pub theme: Theme,
    /// What the unit stands on.
    pub standing: Standing,
    /// The units of the words.
    pub system: System,
}

impl PictureAsked {
    /// Draws it.
    ///
    /// # Errors
    /// When the unit has no such picture.
    pub fn sheet(&self, solved: &Solved) -> Result<Sheet, NoPicture> {
        let sheet = if let Some(view) = self.view {
            view_picture(solved, view, self.standing, self.system, self.theme)?
        } else {
            let side = SideView {
                standing: self.standing,
                system: self.system,
                ..SideView::of(solved)
            };
            let document = &solved.document;
            plate_sheet(
                &document.name,
                document.fitted_name(),
                &side,
                LensChoice::default(),
                self.theme,
                self.page,
            )
        };
        Ok(self.on_its_ground(sheet))
    }

    /// A sheet with the paper's colour behind it, or without.
    fn on_its_ground(&self, sheet: Sheet) -> Sheet {
        if self.is_clear {
            sheet.without_ground()
        } else {
            sheet
        }
    }
}

/// The bytes of a picture's file.
///
/// # Errors
/// When it has more pixels than can be held, or pixels are asked of a format that has none, in words.
pub fn picture_bytes(
    sheet: &Sheet,
    format: PictureFormat,
    resolution: Resolution,
) -> Result<Vec<u8>, String> {
    if format != PictureFormat::Png && resolution != Resolution::Usual {
        return Err("only a .png has pixels: leave out --width and --dpi".to_owned());
    }
    match format {
        PictureFormat::Svg => Ok(to_svg(sheet).into_bytes()),
        PictureFormat::Png => to_png(sheet, resolution.per_unit(sheet)),
        PictureFormat::Pdf => {
            let mut book = PdfBook::new(&sheet.title);
            book.add_chapter(&sheet.title, std::slice::from_ref(sheet))?;
            book.finish()
        }
    }
}

/// Writes a picture of a solved unit; the file's ending chooses SVG, PNG or PDF.
///
/// # Errors
/// When the ending is another, the unit has no such picture, or the file cannot be written.
pub fn write_picture(solved: &Solved, out: &Path, asked: &PictureAsked) -> Result<(), Problem> {
    write_sheet(out, asked, || asked.sheet(solved))
}

/// Writes a picture that is drawn once it is known what it is written as.
///
/// # Errors
/// When the ending is another, there is no such picture, or the file cannot be written.
pub fn write_sheet(
    out: &Path,
    asked: &PictureAsked,
    draw: impl FnOnce() -> Result<Sheet, NoPicture>,
) -> Result<(), Problem> {
    let problem = |what: String| Problem::Picture {
        file: out.to_owned(),
        what,
    };
    let format = PictureFormat::of(out)
        .ok_or_else(|| problem("write a name that ends in .svg, .png or .pdf".to_owned()))?;
    let sheet = draw().map_err(|none| problem(none.to_string()))?;
    let sheet = asked.on_its_ground(sheet);
    let bytes = picture_bytes(&sheet, format, asked.resolution).map_err(problem)?;
    store::write_whole(out, &bytes).map_err(|error| problem(format!("cannot be written: {error}")))
}
