//! The drawing, in rooms that import only from those before them:
//!
//! 1. [`scene`]: what is drawn, plain shapes with roles in world millimetres;
//! 2. [`paper`]: how a scene becomes marks on paper, and what each role looks like;
//! 3. [`pictures`]: the pictures themselves, a scene or marks each;
//! 4. [`sheets`]: pictures put together on a sheet to keep or print;
//! 5. [`painters`]: marks as SVG, PNG and PDF. The window's painter stands with the window.
//!
//! A scene knows no screen; paper is measured in reference pixels, 96 to the inch. The drawing
//! imports `units`, `geometry`, `unit` and `analysis`.

pub mod painters;
pub mod paper;
pub mod pictures;
pub mod scene;
pub mod sheets;

pub use painters::{Delay, PdfBook, Pixels, to_moving_png, to_pixels, to_png, to_svg};
pub use paper::{
    Anchor, Axis, KNIFE_LINES, Look, Mark, Numbers, OVERLAYS, PAPER_PER_MM, Panel, Pen, Rgb, Style,
    Theme, Tick, View, Words, fonts, lay_out, letters, level_symbol, palette, words,
};
pub use pictures::{
    BudgetChart, Canvas, Charted, ClockPicture, Column, ENLARGEMENTS, Handles, Hold, Lens, LensAim,
    LensChoice, MapAxes, MapKey, MapMark, MapPicture, MapSetting, MotionDrawing, MotionOf, Overlay,
    PathCanvas, PathDrawing, STRETCHES, SideView, Standing, WorstPlace, attitude_picture,
    bar_picture, bearings_picture, clock_picture, ends_picture, ground_band_picture,
    height_picture, knife_picture, lean_picture, measured_picture, on_bar_picture, reading_picture,
    reel_at_places, reel_picture, rock_picture, shims_picture, step_picture, thread_picture,
    turn_picture, wear_plot,
};
pub use scene::{Dimension, Direction, Item, Label, Role, Ruler, RulerStep, Scene, Shape, ShownIn};
pub use sheets::{
    Awaited, Complained, Figure, LessonPictures, NoPicture, Origin, Page, PairNumbers, PairPaper,
    PictureView, STILL, Sheet, SheetKind, SheetOf, SideBySide, clip_on_paper, handout_sheets,
    list_sheet, motion_frame, motion_panel, plate_sheet, side_by_side_frame, side_by_side_sheet,
    verdict, view_panels, view_picture, worksheet,
};
