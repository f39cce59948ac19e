//! What can be written on the command line.

use std::path::{Path, PathBuf};

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{ArgGroup, Args, Parser, Subcommand};

use super::WhatIf;
use crate::analysis::CAUTION;
use crate::analysis::why::Complaint;
use crate::drawing::{Page, PictureView, SheetKind};
use crate::lesson::list_of_fields;
use crate::store::is_folder;

/// Draws a reel mower's cutting unit to scale and computes the sweep below the height of cut.
#[derive(Debug, Parser)]
#[command(version, about, after_help = exit_codes_and_caution(), args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// What to do; without one, the window opens.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Unit file to open in the window; left out, what was open last, or a card to choose from.
    pub file: Option<PathBuf>,
}

const EXIT_CODES: &str = "\
Exit codes: 0 done, also when ended by a signal, 2 a file or an argument is wrong,
3 the geometry cannot exist, 4 no display, or the display was lost.";

/// What stands at the foot of the program's own help.
fn exit_codes_and_caution() -> String {
    format!(
        "{EXIT_CODES}

{}",
        caution()
    )
}

/// What stands at the foot of every other help, and of every text that is printed.
#[must_use]
pub fn caution() -> String {
    CAUTION.join(
        "
",
    )
}

/// What stands at the foot of the help about lessons.
fn fields_and_caution() -> String {
    format!(
        "Fields of a step's text, in braces, and of its large numbers:\n{}.\n\n{}",
        list_of_fields(),
        caution()
    )
}

/// What the program can do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Without a window.
    #[command(flatten)]
    Headless(HeadlessCommand),
    /// Open the window.
    #[command(after_help = caution())]
    Window(WindowArguments),
}

/// What needs no window.
#[derive(Debug, Subcommand)]
pub enum HeadlessCommand {
    /// Print a unit's numbers and findings.
    #[command(after_help = caution())]
    Report {
        /// Unit file.
        file: PathBuf,
        /// One JSON object, in millimetres and degrees, instead of a table.
        #[arg(long)]
        json: bool,
        /// What to try.
        #[command(flatten)]
        what_if: WhatIf,
    },
    /// Compare the knife as measured and every option: numbers and working attitude ranges.
    #[command(after_help = caution())]
    Knives {
        /// Unit file.
        file: PathBuf,
        /// One JSON list, in millimetres and degrees, instead of a table.
        #[arg(long, conflicts_with = "csv")]
        json: bool,
        /// CSV, one row a knife, in the file's units.
        #[arg(long)]
        csv: bool,
        /// What to try.
        #[command(flatten)]
        what_if: WhatIf,
    },
    /// Say why a unit marks the turf: height budget, crests, causes, what each adjustment would do.
    #[command(after_help = caution())]
    Why {
        /// Unit file.
        file: PathBuf,
        /// One JSON object, in millimetres and degrees, instead of a text.
        #[arg(long)]
        json: bool,
        /// The finding that adjustments are worked out for, such as sweep. Left out, the worst; in JSON
        /// every one that is not surely OK, and the sweep.
        #[arg(long, value_name = "FINDING")]
        finding: Option<String>,
        /// What is wrong with the turf.
        #[arg(long, value_parser = complaint(), ignore_case = true, value_name = "MARK")]
        complaint: Option<Complaint>,
        /// The distance from mark to mark on the turf, compared with what comes round at that distance.
        #[arg(long, value_name = "LENGTH", requires = "complaint")]
        spacing: Option<String>,
        /// Aim for not over limit, instead of for OK.
        #[arg(long)]
        to_over: bool,
        /// What to try.
        #[command(flatten)]
        what_if: WhatIf,
    },
    /// Work out a reel's diameter from readings that come out short: over tips, over
    /// two straight bars, or by a tape.
    #[command(after_help = caution())]
    #[command(group = ArgGroup::new("from").args(["tips", "over_bars", "tape", "diameter_tape"]).required(true))]
    ReelDiameter {
        /// Number of blades.
        #[arg(long, value_name = "N")]
        blades: u32,
        /// The longest distance over two blade tips, by a caliper.
        #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
        tips: Option<String>,
        /// Over two straight bars laid along the reel on opposite sides, by a caliper.
        #[arg(
            long,
            value_name = "LENGTH",
            allow_hyphen_values = true,
            requires = "bars"
        )]
        over_bars: Option<String>,
        /// Both bars together, without the reel.
        #[arg(
            long,
            value_name = "LENGTH",
            allow_hyphen_values = true,
            requires = "over_bars"
        )]
        bars: Option<String>,
        /// A plain tape once round the blades, read along its middle.
        #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
        tape: Option<String>,
        /// How thick that tape is; left out, no thickness.
        #[arg(
            long,
            value_name = "LENGTH",
            allow_hyphen_values = true,
            conflicts_with_all = ["tips", "over_bars", "diameter_tape"]
        )]
        thickness: Option<String>,
        /// A tape round the blades that shows a diameter.
        #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
        diameter_tape: Option<String>,
        /// One JSON object, in millimetres, instead of a line.
        #[arg(long)]
        json: bool,
    },
    /// Work out a plate sheet: how parallel each roller is, what to do at its adjuster,
    /// its runout, and the cut to expect.
    #[command(after_help = caution())]
    Plate {
        /// Plate sheet. The unit it names is in the same folder.
        sheet: PathBuf,
        /// One JSON object, in millimetres and degrees, instead of a text.
        #[arg(long)]
        json: bool,
    },
    /// List every unit in a folder with its status, and say which sets do not agree.
    #[command(after_help = caution())]
    Shop {
        /// Folder of unit files, their records beside them.
        folder: PathBuf,
        /// One JSON object, in millimetres and degrees, instead of a table.
        #[arg(long)]
        json: bool,
    },
    /// Make a sheet to print: one unit's, or those of all the units of a folder in one document.
    #[command(after_help = caution())]
    Sheet {
        /// Unit file, or a folder of them.
        file: PathBuf,
        /// Document to write, ending in .pdf.
        out: PathBuf,
        /// What the sheet is for.
        #[arg(long, value_parser = sheet_kind(), ignore_case = true, value_name = "KIND", default_value = "setting")]
        kind: SheetKind,
        /// The size of the paper.
        #[arg(long, value_parser = page(), ignore_case = true, value_name = "PAGE", default_value = "a4")]
        page: Page,
        /// What is wrong with the turf, for a sheet of the kind why.
        #[arg(long, value_parser = complaint(), ignore_case = true, value_name = "MARK")]
        complaint: Option<Complaint>,
        /// The distance from mark to mark on the turf.
        #[arg(long, value_name = "LENGTH", requires = "complaint")]
        spacing: Option<String>,
        /// What to try.
        #[command(flatten)]
        what_if: WhatIf,
    },
    /// Show a lesson to a room, step by step; or work it out without a window. The units it names are in
    /// its own folder.
    #[command(after_help = fields_and_caution())]
    #[command(group = ArgGroup::new("what").args(["check", "handout"]))]
    Lesson {
        /// Lesson, a file ending in .lesson.ron.
        file: PathBuf,
        /// Open the presenter's window too: notes, next step and clock, which the room does not see.
        #[arg(long, conflicts_with = "what")]
        presenter: bool,
        /// Solve every step and print its text and numbers.
        #[arg(long)]
        check: bool,
        /// One JSON object, in millimetres and degrees, instead of a text.
        #[arg(long, requires = "check")]
        json: bool,
        /// Write the steps with their pictures on paper, a document ending in .pdf.
        #[arg(long, value_name = "OUT.pdf")]
        handout: Option<PathBuf>,
        /// The size of that paper.
        #[arg(long, value_parser = page(), ignore_case = true, value_name = "PAGE", requires = "handout")]
        page: Option<Page>,
    },
    /// Draw a unit without a display.
    #[command(after_help = caution())]
    Picture {
        /// Unit file.
        file: PathBuf,
        /// Picture to write, ending in .svg, .png or .pdf.
        out: PathBuf,
        /// One picture by itself; left out, a page with the unit, its lens and its numbers.
        #[arg(long, value_parser = picture_view(), ignore_case = true, value_name = "VIEW")]
        view: Option<PictureView>,
        /// Draw this unit file beside it, as the file sets it, at one scale and on one ground line, with the
        /// differences between them; the same file for the unit without what is tried. In the views whole,
        /// lens, ground and motion.
        #[arg(long, value_name = "OTHER", conflicts_with_all = ["turf", "crest"])]
        beside: Option<PathBuf>,
        /// The size of that page; a picture side by side is put on a page with it.
        #[arg(long, value_parser = page(), ignore_case = true, value_name = "PAGE")]
        page: Option<Page>,
        /// How many pixels wide, for a .png.
        #[arg(long, value_name = "PIXELS", value_parser = clap::value_parser!(u32).range(16..=30_000))]
        width: Option<u32>,
        /// How many pixels to the inch, for a .png.
        #[arg(long, value_parser = clap::value_parser!(u32).range(16..=2400), conflicts_with = "width")]
        dpi: Option<u32>,
        /// Let the reel turn: so many pictures from one clip to the next in one moving .png, for the view
        /// motion. With --beside both reels turn by one clock, from one clip of the left one to the next.
        #[arg(long, value_name = "PICTURES", value_parser = clap::value_parser!(u16).range(2..=240), requires = "view")]
        frames: Option<u16>,
        /// Leave out the paper, to lay the picture over something else.
        #[arg(long)]
        clear: bool,
        /// Light lines on dark paper.
        #[arg(long)]
        dark: bool,
        /// Stand the unit on its ground instead of the surface plate.
        #[arg(long)]
        turf: bool,
        /// Stand the unit on a crest: its ground's, or else the tightest that the whole unit crosses.
        #[arg(long, conflicts_with = "turf")]
        crest: bool,
        /// What to try.
        #[command(flatten)]
        what_if: WhatIf,
    },
}

/// How the window is opened.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a word of the command line that stands there or does not"
)]
#[derive(Debug, Default, Args)]
pub struct WindowArguments {
    /// Unit file, or a folder of them to show on the shop board; left out, what was open last, or a card
    /// to choose from; with --shot or a setting to try, a demo unit.
    pub file: Option<PathBuf>,
    /// Save what the window shows once it has settled, as PNG, and quit.
    #[arg(long, value_name = "OUT.png")]
    pub shot: Option<PathBuf>,
    /// Size of the window, as 1280x800.
    #[arg(long, value_parser = size, value_name = "WIDTHxHEIGHT")]
    pub size: Option<(u32, u32)>,
    /// Open in an area, by its name: unit, knives and so on; an unknown one lists them all.
    #[arg(long, value_name = "AREA")]
    pub area: Option<String>,
    /// Open in the Knives area.
    #[arg(long, conflicts_with = "area")]
    pub knives: bool,
    /// Open in the Why area.
    #[arg(long, conflicts_with_all = ["area", "knives", "blade_path"])]
    pub why: bool,
    /// Open in the Blade path area.
    #[arg(long, conflicts_with_all = ["area", "knives"])]
    pub blade_path: bool,
    /// Open in Show: one picture and its numbers over the whole window, for a room.
    #[arg(long)]
    pub show: bool,
    /// Open with this unit file beside it, as the file sets it: at one scale and on one ground line, with the
    /// differences between them; with --show for a room.
    #[arg(
        long,
        value_name = "OTHER",
        requires = "file",
        conflicts_with = "lesson"
    )]
    pub beside: Option<PathBuf>,
    /// Open in Show with a lesson.
    #[arg(long, value_name = "LESSON", conflicts_with_all = ["file", "show", "area"])]
    pub lesson: Option<PathBuf>,
    /// Open the presenter's window beside the lesson.
    #[arg(long, requires = "lesson")]
    pub presenter: bool,
    /// The lesson's step to begin with.
    #[arg(long, value_name = "N", requires = "lesson", default_value_t = 1)]
    pub step: usize,
    /// Open in dark, whatever was chosen before.
    #[arg(long)]
    pub dark: bool,
    /// What to try.
    #[command(flatten)]
    pub what_if: WhatIf,
}

/// An area's own word on the command line: whether it was given, and the area's name.
pub type AreaFlag = (fn(&WindowArguments) -> bool, &'static str);

/// Areas that have a word of their own on the command line.
pub const AREA_FLAGS: [AreaFlag; 3] = [
    (|asked| asked.knives, "knives"),
    (|asked| asked.why, "why"),
    (|asked| asked.blade_path, "blade-path"),
];

impl WindowArguments {
    /// The folder that was named in place of a unit file; none where it was a file.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.file.as_deref().filter(|file| is_folder(file))
    }

    /// The name of the area to open in; none when nobody asked for one.
    #[must_use]
    pub fn asked_area(&self) -> Option<&str> {
        let flag = AREA_FLAGS.into_iter().find(|(is_given, _)| is_given(self));
        self.area.as_deref().or(flag.map(|(_, id)| id))
    }
}

fn size(text: &str) -> Result<(u32, u32), String> {
    let parse = |part: &str| {
        part.trim()
            .parse::<u32>()
            .ok()
            .filter(|n| (320..=4096).contains(n))
    };
    text.split_once(['x', '×'])
        .and_then(|(width, height)| Some((parse(width)?, parse(height)?)))
        .ok_or_else(|| "write it like 1280x800, each between 320 and 4096".to_owned())
}

/// One of a list by its name, in whatever case; help and refusals list them all.
fn named<T: Copy + Send + Sync + 'static, const COUNT: usize>(
    all: [T; COUNT],
    id: fn(T) -> &'static str,
) -> impl TypedValueParser<Value = T> {
    PossibleValuesParser::new(all.map(id)).try_map(move |name| {
        let is_it = |one: &T| id(*one).eq_ignore_ascii_case(&name);
        all.into_iter().find(is_it).ok_or("not in the list")
    })
}

/// A picture by its name.
fn picture_view() -> impl TypedValueParser<Value = PictureView> {
    named(PictureView::ALL, PictureView::id)
}

/// A kind of sheet by its name.
fn sheet_kind() -> impl TypedValueParser<Value = SheetKind> {
    named(SheetKind::ALL, SheetKind::id)
}

/// A size of paper by its name.
fn page() -> impl TypedValueParser<Value = Page> {
    named(Page::ALL, Page::id)
}

/// A complaint by its name.
fn complaint() -> impl TypedValueParser<Value = Complaint> {
    named(Complaint::ALL, Complaint::id)
}
