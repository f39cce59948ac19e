//! How fast it is: a solve with its findings, the scene, a whole frame of the window, and the
//! knives: their table and the map of one.
//!
//! `cargo bench` prints the figures; DEVELOPERS.md keeps those of one machine.

use std::hint::black_box;
use std::ops::ControlFlow;

use criterion::{Criterion, criterion_group, criterion_main};
use egui::{ClippedPrimitive, Context, Event, Key, Modifiers, RawInput, Rect, pos2, vec2};
use sweepgauge::analysis::knives::{Trial, map, table};
use sweepgauge::analysis::why::{Goal, Why};
use sweepgauge::analysis::{Case, FindingId, Findings, Solution, Solved, Uncertainty};
use sweepgauge::app::{App, Change, NoDialogs, Preferences, Session, dress, show_style};
use sweepgauge::command::ShopBoard;
use sweepgauge::drawing::{
    Origin, PairNumbers, PictureView, ShownIn, SideBySide, SideView, Standing, Theme, View,
    lay_out, motion_panel,
};
use sweepgauge::printing::{SheetAsked, folder_book};
use sweepgauge::unit::{
    Document, Fitted, Follows, HardwareReadings, KnifePart, MountEntry, Reading, Uncertain, most,
    read_knife_rows, read_text,
};
use sweepgauge::units::{Angle, Length, Quantity, System};

fn demo() -> Session {
    Session::demo().expect("the demo unit opens")
}

fn solve(criterion: &mut Criterion) {
    solve_one(criterion, "solve with findings", demo().document());
    // The dearest case: findings past their limits work out what would bring them back.
    let mut scalping = demo().document().clone();
    scalping.setting.attitude = Some(Quantity::from_value(
        Angle::from_deg(9.0),
        System::InchDecimal,
    ));
    let name = "solve with findings past their limits";
    solve_one(criterion, name, &scalping);
}

fn solve_one(criterion: &mut Criterion, name: &str, document: &Document) {
    let solved = Solved::of(document).expect("the unit has a solution");
    let unit = &solved.unit;
    criterion.bench_function(name, |bench| {
        bench.iter(|| {
            let setting = black_box(&unit.setting);
            let solution = Solution::of(unit, setting).expect("solved before");
            Findings::about(&Case {
                unit,
                setting,
                solution: &solution,
            })
        });
    });
}

fn uncertainty(criterion: &mut Criterion) {
    let mut unit = Solved::of(demo().document())
        .expect("the demo unit has a solution")
        .unit;
    let readings = [
        Reading::ReelDiameter,
        Reading::HeightOfCut,
        Reading::Attitude,
        Reading::BehindCentre,
        Reading::Gap,
        Reading::FrontDiameter,
        Reading::FrontAhead,
        Reading::RearDiameter,
        Reading::RearBehind,
        Reading::Knife(Fitted::Bench, KnifePart::LipThickness),
    ];
    let uncertain = readings.map(|reading| Uncertain {
        reading,
        half_width: 0.1,
    });
    unit.uncertain = uncertain.to_vec();
    let name = "uncertainty of a unit with 10 uncertain readings";
    criterion.bench_function(name, |bench| {
        bench.iter(|| Uncertainty::of(&unit, black_box(&unit.setting), Follows::BENCH));
    });
}

/// Budgets, crests, every knob and the uncertainty of a unit whose readings carry ±.
fn why(criterion: &mut Criterion) {
    let text = include_str!("../../demo-units/greens-scalping.ron");
    let document = read_text(text).expect("the demo unit is a right file");
    let solved = Solved::of(&document).expect("the demo unit has a solution");
    let unit = &solved.unit;
    criterion.bench_function("budget, knobs and uncertainty", |bench| {
        bench.iter(|| {
            let why = Why::of(black_box(&solved), None, Goal::Fine, System::InchDecimal);
            (why, Uncertainty::of(unit, &unit.setting, unit.follows))
        });
    });
    let eight = eight_knives();
    let solved = Solved::of(&eight).expect("the demo unit has a solution");
    criterion.bench_function("budget and knobs with 8 knives listed", |bench| {
        bench.iter(|| {
            Why::of(
                black_box(&solved),
                Some(FindingId::Sweep),
                Goal::Fine,
                System::InchDecimal,
            )
        });
    });
}

/// The demo unit with eight knives on its list, the later ones a little longer each.
fn eight_knives() -> Document {
    let mut document = demo().document().clone();
    let missing = 7 - document.options.len();
    for step in (1_u8..).take(missing) {
        let mut knife = document.knife.clone();
        let further = Length::from_mm(f64::from(step) * 0.5);
        knife.name = format!("longer {step}");
        knife.reach = Quantity::from_value(knife.reach.value() + further, System::InchDecimal);
        document.options.push(knife);
    }
    document
}

fn on_arc(index: u16) -> HardwareReadings {
    let (up, along) = (std::f64::consts::PI * f64::from(index) / 1000.0).sin_cos();
    let length = |mm| Quantity::from_value(Length::from_mm(mm), System::InchDecimal);
    HardwareReadings {
        behind: length(22.0 + 18.0 * along),
        below: length(3.0 + 1.5 * up),
        on: MountEntry::Bar,
    }
}

fn knives(criterion: &mut Criterion) {
    let document = eight_knives();
    let solved = Solved::of(&document).expect("the demo unit has a solution");
    let unit = &solved.unit;
    let trial = Trial::of(&solved.solution);
    assert_eq!(document.knives().count(), 8);
    criterion.bench_function("table of 8 knives, reel new, now and scrap", |bench| {
        bench.iter(|| table(black_box(&solved)));
    });
    // As many points of hardware as a unit may have, on an arc, so that each can be lowest somewhere.
    let mut much = document.clone();
    much.hardware = (0..1000_u16).map(on_arc).collect();
    let much = Solved::of(&much).expect("the demo unit has a solution");
    criterion.bench_function("table of 8 knives with 1000 points of hardware", |bench| {
        bench.iter(|| table(black_box(&much)));
    });
    // Attitude across, diameter up, every border solved; map_grid.py judges the same by a grid.
    criterion.bench_function("map of a knife", |bench| {
        bench.iter(|| map(unit, black_box(&trial), unit.setting.knife));
    });
}

fn scene(criterion: &mut Criterion) {
    let solved = Solved::of(demo().document()).expect("the demo unit has a solution");
    for (name, standing) in [("plate", Standing::Plate), ("turf", Standing::Turf)] {
        let view = SideView {
            ghost: Some(solved.case()),
            standing,
            ..SideView::of(&solved)
        };
        criterion.bench_function(&format!("scene on {name}"), |bench| {
            bench.iter(|| black_box(&view).scene());
        });
        let scene = view.scene();
        let whole = View::fitting(scene.bounds, kurbo::Rect::new(0.0, 0.0, 1000.0, 600.0));
        criterion.bench_function(&format!("layout on {name}"), |bench| {
            bench.iter(|| lay_out(black_box(&scene), &whole, ShownIn::Whole, Theme::Light));
        });
    }
}

/// A frame of the window, as far as the painter.
fn drawn(ctx: &Context, app: &mut App, events: Vec<Event>) -> Vec<ClippedPrimitive> {
    let input = RawInput {
        screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(1600.0, 1000.0))),
        events,
        ..RawInput::default()
    };
    let mut output = ctx.run_ui(input, |ui| app.window_ui(ui));
    output.textures_delta.clear();
    ctx.tessellate(output.shapes, output.pixels_per_point)
}

fn frame(criterion: &mut Criterion) {
    let preferences = Preferences::default();
    let mut app = App::new(demo(), preferences, Box::new(NoDialogs));
    let ctx = Context::default();
    dress(&ctx);
    let draw = |app: &mut App| drawn(&ctx, app, Vec::new());
    for _ in 0..5 {
        draw(&mut app);
    }
    criterion.bench_function("frame, nothing changed", |bench| {
        bench.iter(|| draw(&mut app));
    });
    let mut steps = (0_u32..).map(|step| 3.0 + f64::from(step % 200) / 100.0);
    criterion.bench_function("frame, attitude dragged", |bench| {
        bench.iter(|| {
            let attitude = Angle::from_deg(steps.next().unwrap_or(3.0));
            let attitude = Quantity::from_value(attitude, System::InchDecimal);
            app.edit(Change::new("Attitude"), |document| {
                document.setting.attitude = Some(attitude);
            });
            draw(&mut app)
        });
    });
}

/// The demo unit with as many knives as a unit file may list, each a little longer than the last.
fn long_list() -> Document {
    let mut document = demo().document().clone();
    let first = document.knife.reach.value();
    for step in (1_u16..).take(most::KNIVES - 1 - document.options.len()) {
        let mut knife = document.knife.clone();
        let further = Length::from_mm(f64::from(step) * 0.001);
        knife.name = format!("longer {step}");
        knife.reach = Quantity::from_value(first + further, System::InchDecimal);
        document.options.push(knife);
    }
    document
}

fn many_knives(criterion: &mut Criterion) {
    let document = long_list();
    let ctx = Context::default();
    dress(&ctx);
    let draw = |app: &mut App, events: Vec<Event>| drawn(&ctx, app, events);
    let to_knives = || Event::Key {
        key: Key::Num2,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::COMMAND,
    };
    let opened = || {
        let preferences = Preferences::default();
        let session = Session::new(document.clone(), None);
        App::new(session, preferences, Box::new(NoDialogs))
    };
    let mut group = criterion.benchmark_group("5000 knives");
    group.sample_size(10);
    group.bench_function("solve, and the first frame of the Knives area", |bench| {
        bench.iter(|| {
            let mut app = opened();
            draw(&mut app, vec![to_knives()]);
            draw(&mut app, Vec::new())
        });
    });
    let mut app = opened();
    draw(&mut app, vec![to_knives()]);
    for _ in 0..120 {
        draw(&mut app, Vec::new());
    }
    group.bench_function("frame, nothing changed", |bench| {
        bench.iter(|| draw(&mut app, Vec::new()));
    });
    let mut steps = (0_u32..).map(|step| f64::from(step % 200));
    group.bench_function("frame, pointer moved", |bench| {
        bench.iter(|| {
            #[expect(clippy::cast_possible_truncation, reason = "a place of the screen")]
            let y = 300.0 + steps.next().unwrap_or(0.0) as f32;
            draw(&mut app, vec![Event::PointerMoved(pos2(700.0, y))])
        });
    });
    let mut steps = (0_u32..).map(|step| 3.0 + f64::from(step % 200) / 100.0);
    group.bench_function("frame, attitude dragged", |bench| {
        bench.iter(|| {
            let attitude = Angle::from_deg(steps.next().unwrap_or(3.0));
            let attitude = Quantity::from_value(attitude, System::InchDecimal);
            app.edit(Change::new("Attitude"), |document| {
                document.setting.attitude = Some(attitude);
            });
            draw(&mut app, Vec::new())
        });
    });
    group.finish();
}

/// The setting sheet of a unit over its limits, the dearest one: made, and bound with that of a folder.
fn sheets(criterion: &mut Criterion) {
    let text = include_str!("../../demo-units/greens-scalping.ron");
    let document = read_text(text).expect("the unit reads");
    let solved = Solved::of(&document).expect("the unit has a solution");
    let (asked, origin) = (SheetAsked::default(), Origin::default());
    criterion.bench_function("setting sheet", |bench| {
        bench.iter(|| asked.sheets(black_box(&solved), &origin, System::InchDecimal));
    });
    let folder = tempfile::tempdir().expect("a folder");
    for number in 0..300 {
        let file = folder.path().join(format!("unit-{number:03}.ron"));
        std::fs::write(file, text).expect("written");
    }
    let mut group = criterion.benchmark_group("folder");
    group.sample_size(10);
    group.bench_function("sheets of a folder of 300 units", |bench| {
        bench.iter(|| {
            let book = folder_book(folder.path(), &asked, |_| ControlFlow::Continue(()));
            let book = book.expect("it can be read").expect("nobody broke it off");
            assert_eq!(book.units, 300);
            book.bytes.len()
        });
    });
    group.finish();
}

/// Rows pasted from a spreadsheet, every knife of one name: each then gets one of its own.
fn pasted_rows(criterion: &mut Criterion) {
    let rows = "same,1.65,2.65,0.12,0.5,0.25,52.00\n".repeat(2000);
    let unit = demo().document().clone();
    criterion.bench_function("2000 pasted rows of one name, read and added", |bench| {
        bench.iter(|| {
            let knives = read_knife_rows(black_box(&rows), System::InchDecimal).expect("rows");
            let mut document = unit.clone();
            document.add_knives(knives);
            Solved::of(&document).map(|solved| solved.id)
        });
    });
}

/// A folder of 300 units, each with a record of 50 entries.
fn shop_of_300() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let text = include_str!("../../demo-units/example-ground/greens-3.ron");
    for unit in 0..300 {
        let name = format!("Example Ground, unit {unit}");
        let text = text.replace("Example Ground, walking greens, 3", &name);
        let text = text.replace("walking greens", &format!("set {}", unit / 3));
        let file = folder.path().join(format!("unit-{unit:03}.ron"));
        std::fs::write(&file, text).expect("it is written");
        let entry = |job: u32| {
            let (year, month) = (2022 + job / 12, 1 + job % 12);
            let (hours, diameter) = (100 * job, 4.9 - 0.004 * f64::from(job));
            format!(
                "(date:\"{year}-{month:02}-05\",by:\"A. Fitter\",hours:\"{hours}\",what:\"reel ground\",reel_diameter:Some(\"{diameter:.3} in\"))\n"
            )
        };
        let record: String = std::iter::once("(record:1)\n".to_owned())
            .chain((0..50).map(entry))
            .collect();
        std::fs::write(file.with_extension("record.ron"), record).expect("it is written");
    }
    folder
}

/// Show with the reel in motion: every frame is another moment, drawn anew.
fn in_motion(criterion: &mut Criterion) {
    let ctx = Context::default();
    dress(&ctx);
    let key = |key| Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    let mut app = App::new(demo(), Preferences::default(), Box::new(NoDialogs));
    drawn(&ctx, &mut app, vec![key(Key::F11)]);
    let still = drawn(&ctx, &mut app, vec![key(Key::M)]).len();
    assert!(still > 0);
    criterion.bench_function("Show, a frame of the reel in motion", |bench| {
        bench.iter(|| drawn(&ctx, &mut app, Vec::new()));
    });
    // As measured and as set, by one clock.
    drawn(&ctx, &mut app, vec![key(Key::D)]);
    criterion.bench_function("Show, a frame of two reels in motion", |bench| {
        bench.iter(|| drawn(&ctx, &mut app, Vec::new()));
    });
    moments(criterion);
}

/// What of such a frame is the drawing's: a moment of the reel from its solution to what the painter is given,
/// the scene with its stems, and the same of two side by side. The rest of a frame is the toolkit's.
fn moments(criterion: &mut Criterion) {
    let solved = Solved::of(demo().document()).expect("the demo unit has a solution");
    let style = show_style(1080.0, Theme::Light, false);
    let paper = kurbo::Rect::new(0.0, 0.0, 1880.0, 620.0);
    let mut clips = (0_u32..).map(|step| f64::from(step) / 61.0);
    let mut next = move || clips.next().unwrap_or_default();
    criterion.bench_function("the reel at a moment, laid out for a room", |bench| {
        bench.iter(|| motion_panel(black_box(&solved), next(), paper, style));
    });
    let mut clips = (0_u32..).map(|step| f64::from(step) / 61.0);
    let mut next = move || clips.next().unwrap_or_default();
    criterion.bench_function("two reels at a moment, laid out for a room", |bench| {
        bench.iter(|| {
            let pair = SideBySide {
                units: [&solved, &solved],
                names: ["Left", "Right"].map(str::to_owned),
                view: PictureView::Motion,
                system: System::InchDecimal,
                clips: next(),
            };
            pair.panels(&PairNumbers::all_of(pair.view), paper, style)
        });
    });
}

/// The board of 300 units with 50 entries each: read, shown for the first time, and scrolled.
fn shop_board(criterion: &mut Criterion) {
    let folder = shop_of_300();
    let ctx = Context::default();
    dress(&ctx);
    let draw = |app: &mut App, events: Vec<Event>| drawn(&ctx, app, events).len();
    let opened = || {
        let mut app = App::new(demo(), Preferences::default(), Box::new(NoDialogs));
        app.show_folder(folder.path());
        app.bring_to_front("shop");
        let empty = draw(&mut app, Vec::new());
        // The rows come with the frame after they were read.
        while draw(&mut app, Vec::new()) <= empty + 20 {
            std::thread::sleep(std::time::Duration::from_millis(1));
        }
        app
    };
    let mut group = criterion.benchmark_group("300 units with 50 entries each");
    group.sample_size(10);
    group.bench_function("board, read and solved", |bench| {
        bench.iter(|| {
            let board = ShopBoard::read(folder.path()).expect("it is read");
            assert_eq!((board.units.len(), board.refused.len()), (300, 0));
        });
    });
    group.bench_function("board, open 300 units", |bench| {
        bench.iter(opened);
    });
    let mut app = opened();
    group.bench_function("board, a frame with nothing changed", |bench| {
        bench.iter(|| draw(&mut app, Vec::new()));
    });
    let mut down = (0_u32..).map(|step| step % 200 < 100);
    group.bench_function("board, a frame while scrolling", |bench| {
        bench.iter(|| {
            let by = if down.next().unwrap_or(true) {
                -60.0
            } else {
                60.0
            };
            let wheel = Event::MouseWheel {
                unit: egui::MouseWheelUnit::Point,
                delta: vec2(0.0, by),
                phase: egui::TouchPhase::Move,
                source: egui::MouseWheelSource::Wheel,
                modifiers: Modifiers::NONE,
            };
            draw(
                &mut app,
                vec![Event::PointerMoved(pos2(500.0, 500.0)), wheel],
            )
        });
    });
    group.finish();
}

criterion_group!(
    speed,
    in_motion,
    shop_board,
    pasted_rows,
    solve,
    why,
    uncertainty,
    knives,
    scene,
    frame,
    many_knives,
    sheets
);
criterion_main!(speed);
