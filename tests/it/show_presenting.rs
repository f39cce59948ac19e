//! What a presenter does in Show: turn a setting, point, enlarge, choose, and let the reel turn; and that none
//! of it changes the unit.

use std::sync::mpsc::channel;
use std::time::{Duration, Instant};

use egui::accesskit::Role;
use egui::epaint::Mesh;
use egui::{Event, Key, Modifiers, Pos2, Rect, Shape, Vec2};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::analysis::{NumberId, Solved};
use sweepgauge::app::{Beginning, Change, DEMO_UNIT, LessMotion, MotionWish};
use sweepgauge::command::open_lesson;
use sweepgauge::lesson::{Turned, read_lesson};
use sweepgauge::unit::{ClosingReadings, read_text};
use sweepgauge::units::{Length, Quantity, System};

use crate::common::plate_window::{GREENS, ground};
use crate::common::shown::{Answers, Start, Window, demo_set, document};
use crate::show_window::{all_painted, lessons, painted, telling};

const SCREEN: Vec2 = Vec2::new(1024.0, 768.0);

fn at_work() -> Window {
    let mut start = Start::on(document(DEMO_UNIT));
    start.size = SCREEN;
    start.window()
}

/// The unit in front of a room.
fn showing() -> Window {
    let mut window = at_work();
    window.press(Key::F11);
    window
}

/// The reel in motion, standing still.
fn in_motion() -> Window {
    let mut window = showing();
    window.harness.key_press(Key::M);
    window.harness.key_press(Key::Space);
    window.settle();
    window
}

fn write(window: &mut Window, mark: &str) {
    window.harness.event(Event::Text(mark.to_owned()));
    window.settle();
}

/// The picture's place.
fn picture(window: &Window) -> Rect {
    let nodes = window.nodes();
    let picture = nodes.iter().find(|node| {
        let node = node.accesskit_node();
        let label = node.label();
        node.role() == Role::Image && label.is_some_and(|label| label.starts_with("Picture: "))
    });
    picture.expect("a picture").rect()
}

fn words(window: &Window) -> Vec<String> {
    let painted = painted(window);
    painted
        .iter()
        .map(|text| text.galley.text().to_owned())
        .collect()
}

#[test]
fn the_slider_shows_what_a_setting_does_and_no_unit_is_changed() {
    let mut window = showing();
    let (before, solves) = (window.document().clone(), window.generation());
    window.assert_says("0.300 in");
    for _ in 0..10 {
        window.press_with(Modifiers::SHIFT, Key::ArrowRight);
    }
    // What the unit would be, set so in the form.
    let turned = Solved::of(&demo_set("attitude: Some(\"5 deg\")")).unwrap();
    let system = turned.unit.system;
    for id in [NumberId::BehindCentre, NumberId::SweepBelowCut] {
        let shown = turned.solution.numbers().shown(id, system).unwrap();
        window.assert_says(&shown);
    }
    window.assert_silent("0.300 in");
    window.assert_says("the unit keeps its setting");
    let slider = window.slider("Attitude slider").value();
    assert_eq!(slider.as_deref(), Some("5.00°"));
    // On the next picture as well.
    window.press(Key::ArrowRight);
    window.assert_silent("0.300 in");
    window.press(Key::R);
    window.assert_says("0.300 in");
    window.assert_silent("the unit keeps its setting");
    window.press_with(Modifiers::SHIFT, Key::ArrowLeft);
    window.assert_silent("0.300 in");
    window.press(Key::Escape);
    assert_eq!(*window.document(), before);
    assert_eq!(window.generation(), solves, "nor was it solved");
    window.press(Key::F11);
    window.assert_says("0.300 in");
    assert!(window.would_close(), "there is nothing to lose");
}

#[test]
fn the_slider_stops_where_no_unit_can_be_and_says_why() {
    let mut window = showing();
    // Dragged to its lower end and over its upper one.
    let slider = window.slider("Attitude slider").rect();
    for to in [slider.left_center(), slider.right_center()] {
        let from = window.slider("Attitude slider").rect().center();
        window.drag(from, to - from);
        assert!(window.says("the unit keeps its setting") || window.says("no further: "));
        assert!(picture(&window).height() > 100.0, "the picture stays");
    }
    // The reel of this one turns about a pivot straight beyond its centre: a smaller one does not reach the knife.
    let mut document = document(DEMO_UNIT);
    let bench = &document.bench;
    let (diameter, behind) = (bench.reel_diameter.value(), bench.behind_centre.value());
    let up = (0.5 * diameter.mm()).powi(2) - behind.mm().powi(2);
    let above = bench.height_of_cut.value().mm() + 2.0 * up.sqrt();
    let length = |mm: f64| Quantity::exactly(Length::from_mm(mm), System::Millimetre);
    document.closing = ClosingReadings::ReelPivots {
        ahead: length(2.0 * behind.mm()),
        above: length(above),
    };
    let mut start = Start::on(document);
    start.size = SCREEN;
    start.preferences.show.slider = Some(Turned::ReelDiameter);
    let mut window = start.window();
    window.press(Key::F11);
    let shown = picture(&window);
    window.press_with(Modifiers::SHIFT, Key::ArrowLeft);
    let told = words(&window);
    let why = told.iter().find(|text| text.starts_with("no further: "));
    let why = why.unwrap_or_else(|| panic!("{told:?}"));
    assert!(why.ends_with("Check where the pivot stands."), "{why}");
    assert!(
        picture(&window).height() > 0.8 * shown.height(),
        "the picture stays"
    );
    window.press(Key::R);
    assert!(
        !words(&window)
            .iter()
            .any(|text| text.starts_with("no further: "))
    );
}

#[test]
fn a_step_turns_what_it_allows_and_goes_back_with_the_next() {
    let (file, at, told) = lessons()
        .into_iter()
        .find_map(|file| {
            let opened = open_lesson(&file).unwrap();
            let at = opened
                .lesson
                .steps
                .iter()
                .position(|step| step.slider.is_some())?;
            let text = opened.steps[at].as_ref().unwrap().text.clone();
            Some((file, at, text))
        })
        .expect("a step with a slider");
    let mut window = telling(&file, at, SCREEN);
    window.assert_says(&told);
    for _ in 0..5 {
        window.press_with(Modifiers::SHIFT, Key::ArrowRight);
    }
    // Its text tells the numbers of what is seen.
    window.assert_silent(&told);
    window.assert_says("the unit keeps its setting");
    window.press(Key::ArrowRight);
    window.press(Key::ArrowLeft);
    window.assert_says(&told);
    // A step that allows none has none.
    let all = open_lesson(&file).unwrap().lesson.steps;
    let without = all.iter().position(|step| step.slider.is_none()).unwrap();
    let window = telling(&file, without, SCREEN);
    assert!(
        !window
            .nodes()
            .iter()
            .any(|node| node.accesskit_node().role() == Role::Slider)
    );
}

#[test]
fn with_the_numbers_hidden_the_slider_tells_none_either() {
    let mut window = showing();
    window.press(Key::N);
    window.press_with(Modifiers::SHIFT, Key::ArrowRight);
    assert!(
        !words(&window)
            .iter()
            .any(|text| text.contains('°') || text.contains("0."))
    );
    let slider = window.slider("Attitude slider");
    let data = slider.accesskit_node();
    assert_eq!((data.value(), data.numeric_value()), (None, None));
    window.press(Key::N);
    window.assert_says("4.10°");
}

#[test]
fn numbers_and_slider_are_chosen_and_remembered() {
    let mut window = showing();
    window.click("C: choose");
    let is_fixed = |window: &Window, name: &str| {
        let nodes = window.nodes();
        let tick = nodes.iter().find(|node| {
            let node = node.accesskit_node();
            node.role() == Role::CheckBox && node.label().as_deref() == Some(name)
        });
        tick.expect("a number").accesskit_node().is_disabled()
    };
    assert!(is_fixed(&window, "Reel above plate"), "four are in");
    window.click("Behind centre");
    window.click("Sweep");
    window.click("Sweep as % of height of cut");
    assert!(is_fixed(&window, "Height of cut"), "one stays");
    window.click("Reel above plate");
    window.click("Reel diameter");
    window.click("Close");
    window.assert_silent("Behind centre");
    window.assert_says("Reel above plate");
    window.slider("Reel diameter slider");
    let chosen = window.app().preferences().clone();
    window.press(Key::Escape);
    let mut start = Start::on(document(DEMO_UNIT));
    start.preferences = chosen;
    let mut again = start.window();
    again.press(Key::F11);
    again.assert_says("Reel above plate");
    again.slider("Reel diameter slider");
}

#[test]
fn every_key_is_on_the_list_and_the_bar_comes_with_the_pointer() {
    let mut window = showing();
    window.assert_says("?: keys");
    // Five seconds of the toolkit's clock.
    (0..5 * 60 + 30).for_each(|_| {
        window.step();
    });
    window.assert_silent("?: keys");
    window.harness.hover_at(Pos2::new(300.0, 300.0));
    window.settle();
    window.assert_says("?: keys");
    window.press(Key::Questionmark);
    for does in [
        "This list",
        "To the picture or step before",
        "To the next picture or step",
        "Show or hide the numbers",
        "The clip point enlarged, and back",
        "The reel in motion, and back",
        "Two side by side, as last chosen in View, Side by side; and back",
        "Left and right change places",
        "A bright ring at the pointer, the rest dimmed; again to put it out",
        "Enlarge the place at the pointer; again to show all. Or drag a frame around it",
        "All dark, and back",
        "Choose the numbers and the slider",
        "In a lesson: a second window with notes, next step and clocks. Put it on your own screen; again to close it",
        "Of a unit: keep the picture as a step of a lesson",
        "Back to where you were",
        "All words on the picture, then none, then the few again",
        "Stop the reel, and let it go on",
        "Turn the reel on by one blade, and stop there. Or drag the picture",
        "Turn the reel slower, down to one blade a step",
        "Turn the reel faster, up to its real speed",
        "The slider, one step up",
        "The slider, one step down",
        "The slider back to what is set",
        "Enlarge; or turn the wheel",
        "Show more; or turn the wheel",
        "To the first picture or step",
        "To the last picture or step",
    ] {
        window.assert_says(does);
    }
    // The card takes Escape; Show goes on.
    window.press(Key::Escape);
    window.assert_silent("Back to where you were");
    window.assert_says("?: keys");
    // The key that opened it closes it, and any other does what it says.
    window.press(Key::Questionmark);
    window.press(Key::Questionmark);
    window.assert_silent("Back to where you were");
    window.press(Key::Questionmark);
    window.press(Key::D);
    window.assert_silent("Back to where you were");
    window.assert_says("Side by side: ");
}

#[test]
fn a_key_that_does_nothing_on_a_slide_says_why() {
    let mut window = showing();
    for (key, why) in [
        (Key::Space, "No reel turns here: M first"),
        (Key::X, "Two change places where two are: D"),
        (Key::P, "The presenter's window goes with a lesson"),
        (Key::R, "The slider is where it is set"),
    ] {
        window.press(key);
        window.assert_says(why);
    }
    window.press(Key::N);
    window.assert_silent("The slider is where it is set");
    let lesson = lessons().swap_remove(0);
    let mut window = telling(&lesson, 1, SCREEN);
    window.press(Key::C);
    window.assert_says("A step has its own numbers and slider");
    window.assert_silent("What a room sees");
}

#[test]
fn lens_and_motion_are_shown_and_left_by_their_keys() {
    let mut window = showing();
    let whole = words(&window);
    window.press(Key::L);
    assert_ne!(words(&window), whole);
    window.press(Key::L);
    assert_eq!(words(&window), whole);
    window.harness.key_press(Key::M);
    window.harness.key_press(Key::Space);
    window.settle();
    window.assert_says("illustration");
    window.press(Key::M);
    assert_eq!(words(&window), whole);
}

#[test]
fn labels_go_with_their_lines_and_numbers_stay() {
    let mut window = showing();
    let shapes = |window: &Window| all_painted(window).matches("Path").count();
    // A room is told few at first.
    for few in ["knife", "reel", "cut line", "clip point"] {
        assert!(words(&window).iter().any(|text| text == few), "{few}");
    }
    let few = (words(&window).len(), shapes(&window));
    assert!(!words(&window).iter().any(|text| text == "bed bar"));
    window.press(Key::T);
    assert!(words(&window).iter().any(|text| text == "bed bar"));
    let with = (words(&window).len(), shapes(&window));
    window.press(Key::T);
    assert!(
        !words(&window).iter().any(|text| text == "knife"),
        "{:?}",
        words(&window)
    );
    window.assert_says("0.300 in");
    assert!(with.0 > words(&window).len() + 8);
    assert!(with.1 > shapes(&window), "the lines that led to them");
    window.press(Key::T);
    assert_eq!((words(&window).len(), shapes(&window)), few);
}

/// The meshes painted.
fn meshes(window: &Window) -> Vec<Mesh> {
    let shapes = &window.harness.output().shapes;
    let meshes = shapes.iter().filter_map(|shape| match &shape.shape {
        Shape::Mesh(mesh) => Some((**mesh).clone()),
        _ => None,
    });
    meshes.collect()
}

#[test]
fn the_spotlight_is_where_the_pointer_is_and_asks_for_no_frame_at_rest() {
    let mut window = showing();
    let before = meshes(&window).len();
    window.harness.hover_at(Pos2::new(400.0, 250.0));
    window.press(Key::S);
    let lit = |window: &Window, at: Pos2| {
        let dimmed = meshes(window).pop().expect("a mesh");
        dimmed.vertices.iter().any(|corner| {
            let off = corner.pos.distance(at);
            (0.05 * SCREEN.y..0.2 * SCREEN.y).contains(&off)
        })
    };
    assert_eq!(meshes(&window).len(), before + 1);
    assert!(lit(&window, Pos2::new(400.0, 250.0)));
    window.harness.hover_at(Pos2::new(800.0, 300.0));
    window.settle();
    assert!(lit(&window, Pos2::new(800.0, 300.0)) && !lit(&window, Pos2::new(400.0, 250.0)));
    (0..6 * 60).for_each(|_| {
        window.step();
    });
    assert!(window.step() > Duration::from_hours(1));
    window.press(Key::S);
    assert_eq!(meshes(&window).len(), before);
}

#[test]
fn a_place_is_enlarged_by_key_and_by_a_frame_with_words_as_large_as_before() {
    let mut window = showing();
    let whole = all_painted(&window);
    let place = picture(&window);
    window.harness.hover_at(place.center());
    window.settle();
    window.press(Key::Z);
    let close = all_painted(&window);
    assert_ne!(close, whole);
    // Its words are read from the last row, and none is cut.
    for text in painted(&window) {
        let size = text.galley.job.sections[0].format.font_id.size;
        assert!(size >= 0.02 * SCREEN.y, "{}", text.galley.text());
    }
    // The bar fades meanwhile: the words on the picture are compared, each in its place.
    let seen = |window: &Window| {
        let words = painted(window).into_iter();
        let words = words.filter(|word| place.contains(word.pos));
        let words = words.map(|word| (word.galley.text().to_owned(), word.pos));
        words.collect::<Vec<_>>()
    };
    window.press(Key::Z);
    let all = seen(&window);
    assert!(all.len() > 4, "{all:?}");
    let corner = place.center() - Vec2::new(100.0, 40.0);
    window.drag(corner, Vec2::new(200.0, 80.0));
    assert_ne!(seen(&window), all);
    window.press(Key::Z);
    assert_eq!(seen(&window), all, "all of it again");
    // Another picture is seen whole.
    window.press(Key::ArrowRight);
    let lens = seen(&window);
    window.press(Key::Plus);
    assert_ne!(seen(&window), lens);
    window.press(Key::ArrowLeft);
    window.press(Key::ArrowRight);
    assert_eq!(seen(&window), lens);
}

#[test]
fn the_reel_turns_at_the_pace_asked_for_and_by_hand() {
    let mut window = in_motion();
    window.assert_says("standing still");
    write(&mut window, "<");
    window.harness.key_press(Key::Space);
    window.step();
    window.step();
    window.assert_says("1 blade in 2 seconds");
    for _ in 0..12 {
        window.harness.event(Event::Text(">".to_owned()));
        window.step();
    }
    window.step();
    window.assert_says("real speed");
    // A drag stops it and turns it with the ground.
    let place = picture(&window);
    window.drag(place.center(), Vec2::new(-60.0, 0.0));
    window.assert_says("standing still");
    let dragged = all_painted(&window);
    window.drag(place.center(), Vec2::new(-30.0, 0.0));
    assert_ne!(all_painted(&window), dragged);
    (0..6 * 60).for_each(|_| {
        window.step();
    });
    assert!(window.step() > Duration::from_hours(1), "no frame at rest");
    for _ in 0..14 {
        write(&mut window, "<");
    }
    window.assert_says("one blade a step");
}

/// A desktop that asks for less motion, or for no less.
struct Desktop(bool);

impl MotionWish for Desktop {
    fn ask(&self) -> LessMotion {
        let (sender, answer) = channel();
        sender.send(self.0).unwrap();
        answer
    }
}

#[test]
fn what_moves_stands_at_first_where_the_desktop_asks_for_less_motion() {
    for is_less in [true, false] {
        let mut window = at_work();
        let app = window.harness.state_mut();
        app.ask_for_motion_with(Box::new(Desktop(is_less)));
        window.press(Key::F11);
        window.harness.key_press(Key::M);
        (0..4).for_each(|_| {
            window.step();
        });
        let rests = window.step() > Duration::ZERO;
        assert_eq!(rests, is_less);
        // Whoever asks for it has it.
        if is_less {
            window.harness.key_press(Key::Space);
            window.step();
            window.step();
            assert_eq!(window.step(), Duration::ZERO);
        }
    }
}

#[test]
fn with_less_motion_no_step_moves_into_the_next() {
    let file = lessons()
        .into_iter()
        .find(|file| file.ends_with("longer-knife.lesson.ron"))
        .unwrap();
    let mut window = at_work();
    let app = window.harness.state_mut();
    app.ask_for_motion_with(Box::new(Desktop(true)));
    let ctx = window.harness.ctx.clone();
    let lesson = open_lesson(&file).unwrap();
    window.harness.state_mut().show_lesson(&ctx, lesson, 0);
    window.settle();
    for step in 1..9 {
        window.harness.key_press(Key::ArrowRight);
        let frames = (0..30).take_while(|_| window.step() == Duration::ZERO);
        assert!(frames.count() < 5);
        // Steps that would move stand where they end at once.
        if [2, 6].contains(&step) {
            let mut other = telling(&file, step, SCREEN);
            other.step();
            assert_eq!(words(&window), words(&other), "step {}", step + 1);
        }
    }
}

#[test]
fn k_says_kept_only_where_a_step_was_kept_and_else_why_not() {
    let mut window = showing();
    window.press(Key::K);
    window.assert_says("A lesson was begun with this step.");
    window.press(Key::K);
    window.assert_says("Kept as step 2 of the lesson.");
    window.press_with(Modifiers::SHIFT, Key::ArrowRight);
    window.press(Key::K);
    window.assert_says("Kept as step 3 of the lesson. It has what the slider tries.");
    window.press(Key::D);
    window.press(Key::K);
    window.assert_says("One unit can be kept as a step");
    window.press(Key::D);
    // A unit that cannot be solved is no step.
    let forward = Change::new("edge forward");
    window.harness.state_mut().edit(forward, |document| {
        let far = Quantity::from_value(Length::from_inches(5.0), System::InchDecimal);
        document.setting.extension = Some(far);
    });
    window.settle();
    window.press(Key::K);
    window.assert_says("Not kept as a step.");
    window.assert_silent("Kept as step");
    window.press(Key::Escape);
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window.assert_says("Step 3:");
    window.assert_silent("Step 4:");
    // Nor is a step of a lesson that is shown.
    let mut window = telling(&lessons()[0], 0, SCREEN);
    window.press(Key::K);
    window.assert_says("This is a step already");
}

#[test]
fn what_the_slider_tries_stands_beside_as_set_and_is_what_k_keeps() {
    let folder = tempfile::TempDir::new().unwrap();
    let out = folder.path().join("made.lesson.ron");
    let answers = Answers::default();
    answers.save(&out);
    let mut start = Start::on(document(DEMO_UNIT)).asking(&answers);
    start.size = SCREEN;
    let mut window = start.window();
    let before = window.document().clone();
    window.press(Key::F11);
    for _ in 0..4 {
        window.press_with(Modifiers::SHIFT, Key::ArrowRight);
    }
    window.assert_says("tried here alone");
    window.press(Key::D);
    window.assert_silent("no setting is tried");
    let seen = words(&window);
    for name in ["As set", "As tried", "Attitude"] {
        assert!(seen.iter().any(|word| word == name), "{name}: {seen:?}");
    }
    // Back, it is still tried, and kept as it is seen.
    window.press(Key::D);
    window.assert_says("tried here alone");
    window.press(Key::K);
    window.assert_says("It has what the slider tries.");
    window.press(Key::Escape);
    assert_eq!(*window.document(), before);
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window.press_with(Modifiers::COMMAND, Key::S);
    let lesson = read_lesson(&std::fs::read_to_string(&out).unwrap()).unwrap();
    let unit = lesson.steps[0].unit.as_ref().unwrap();
    let kept = unit.embedded.as_ref().expect("written out");
    assert_ne!(kept.setting, before.setting);
    assert_eq!(kept.bench, before.bench);
}

#[test]
fn the_up_key_says_how_many_blades_the_reel_went_on() {
    let mut window = in_motion();
    window.assert_silent("blade on");
    window.press(Key::ArrowUp);
    window.assert_says("standing still, one blade on. Mowing: ");
    window.press(Key::ArrowUp);
    window.assert_says("standing still, 2 blades on.");
}

/// The safety line of a small projector keeps its gloves.
#[test]
fn gloves_are_cut_resistant_on_every_screen() {
    for size in [SCREEN, Vec2::new(900.0, 600.0)] {
        let mut start = Start::on(document(DEMO_UNIT));
        start.size = size;
        let mut window = start.window();
        window.press(Key::F11);
        window.assert_says("unit and reel blocked, cut-resistant gloves.");
        let gloves = painted(&window).into_iter();
        let gloves = gloves.filter(|word| word.galley.text().contains("gloves"));
        assert!(gloves.map(|word| word.galley.elided).eq([false]), "{size}");
    }
}

#[test]
fn escape_leads_back_to_exactly_where_one_was() {
    let mut window = at_work();
    let areas: Vec<_> = window.app().areas().map(|about| about.id).collect();
    for area in areas {
        window.harness.state_mut().bring_to_front(area);
        window.settle();
        let before = window.texts();
        window.press(Key::F11);
        // The next picture may be one that moves.
        window.harness.key_press(Key::ArrowRight);
        window.harness.key_press(Key::Space);
        window.settle();
        window.press(Key::Plus);
        window.press(Key::Escape);
        assert_eq!(window.texts(), before, "{area}");
    }
    // What had the keys has them again.
    window.harness.state_mut().bring_to_front("unit");
    window.settle();
    window.field("Reach").focus();
    window.settle();
    let focused = window.harness.ctx.memory(egui::Memory::focused);
    assert!(focused.is_some());
    window.press(Key::F11);
    window.press(Key::Escape);
    assert_eq!(window.harness.ctx.memory(egui::Memory::focused), focused);
}

#[test]
fn the_plate_area_begins_with_the_picture_of_its_page_and_shop_with_the_unit() {
    let folder = ground();
    let mut start = Start::on(document(DEMO_UNIT));
    start.beginning = Some(Beginning::with_sheet(&folder.path().join(GREENS)).unwrap());
    start.size = SCREEN;
    let mut window = start.window();
    window.harness.state_mut().bring_to_front("plate");
    window.settle();
    window.press(Key::F11);
    let pictures = |window: &Window| -> Vec<String> {
        let names = window.texts().into_iter();
        names.filter(|text| text.starts_with("Picture: ")).collect()
    };
    let page = pictures(&window);
    assert_eq!(page.len(), 1, "{page:?}");
    assert!(!page[0].contains("the whole unit"), "{page:?}");
    window.press(Key::ArrowRight);
    assert!(pictures(&window)[0].contains("the whole unit from the side"));
    window.press(Key::ArrowLeft);
    assert_eq!(pictures(&window), page);
    window.press(Key::End);
    assert!(pictures(&window)[0].contains("the attitude map"));
    window.press(Key::Home);
    assert_eq!(pictures(&window), page);
    window.press(Key::Escape);
    window.harness.state_mut().bring_to_front("shop");
    window.settle();
    window.press(Key::F11);
    assert!(pictures(&window)[0].contains("the whole unit from the side"));
}

/// Not a test of speed: it tells what a frame of the reel in motion takes of this machine in a dev build.
#[test]
#[ignore = "tells a figure, promises none"]
fn what_a_frame_of_the_reel_in_motion_takes() {
    const FRAMES: u32 = 300;
    for size in [SCREEN, Vec2::new(1920.0, 1080.0)] {
        let mut start = Start::on(read_text(DEMO_UNIT).unwrap());
        start.size = size;
        let mut window = start.window();
        window.press(Key::F11);
        window.harness.key_press(Key::M);
        (0..5).for_each(|_| {
            window.step();
        });
        let begun = Instant::now();
        (0..FRAMES).for_each(|_| {
            window.step();
        });
        println!("{size}: {:?} a frame", begun.elapsed() / FRAMES);
    }
}
