//! What is made on a thread of its own, so that the window goes on meanwhile: how far it is, and breaking
//! it off.

use std::ops::ControlFlow;
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

use egui::{Context, ProgressBar, Ui};

/// How wide a bar is in a row.
const BAR_IN_A_ROW: f32 = 120.0;
/// What lasts no longer than this goes without a bar.
const SHOWN_AFTER: Duration = Duration::from_millis(500);

const OPEN: u8 = 0;
const GIVEN_UP: u8 = 1;
const PAST: u8 = 2;

/// What both sides of a making know of it.
#[derive(Debug, Default)]
struct Told {
    /// Whether it can still be given up, is given up, or is past that.
    state: AtomicU8,
    done: AtomicUsize,
    of: AtomicUsize,
}

/// Tells from the thread how far it is, and hears there whether it is still wanted.
#[derive(Clone, Debug)]
pub struct Teller {
    told: Arc<Told>,
    ctx: Context,
}

impl Told {
    /// Leaves the open state for another; whether it is in that one now.
    fn leave_open(&self, state: u8) -> bool {
        let order = Ordering::Relaxed;
        match self.state.compare_exchange(OPEN, state, order, order) {
            Ok(_) => true,
            Err(now) => now == state,
        }
    }
}

impl Teller {
    /// Tells that so many parts of all are done; breaks off when nobody waits any more.
    pub fn tell(&self, done: usize, of: usize) -> ControlFlow<()> {
        self.told.done.store(done, Ordering::Relaxed);
        self.told.of.store(of, Ordering::Relaxed);
        self.ctx.request_repaint();
        if self.is_given_up() {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }

    /// Whether nobody waits any more. To be asked as often as one likes: no frame comes of it.
    pub fn is_given_up(&self) -> bool {
        self.told.state.load(Ordering::Relaxed) == GIVEN_UP
    }

    /// From here on it cannot be given up; breaks off when it was. To be asked before anything is written.
    pub fn go_past(&self) -> ControlFlow<()> {
        if self.told.leave_open(PAST) {
            ControlFlow::Continue(())
        } else {
            ControlFlow::Break(())
        }
    }
}

/// Something being made on a thread of its own. Dropped, it is given up.
#[derive(Debug)]
pub struct Making<T> {
    made: Receiver<T>,
    told: Arc<Told>,
    begun: Instant,
}

/// How a making stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage<T> {
    /// It goes on.
    Going,
    /// It is made.
    Made(T),
    /// It ended without.
    Ended,
}

impl<T: Send + 'static> Making<T> {
    /// Begins to make something; none comes of it when it is broken off.
    pub fn begin(
        ctx: &Context,
        name: &str,
        make: impl FnOnce(&Teller) -> Option<T> + Send + 'static,
    ) -> Self {
        let (sender, receiver) = channel();
        let told = Arc::new(Told::default());
        let (ctx, teller) = (
            ctx.clone(),
            Teller {
                told: Arc::clone(&told),
                ctx: ctx.clone(),
            },
        );
        let making = thread::Builder::new().name(name.to_owned());
        // Without a thread the sender is dropped, which counts as ended.
        let _ = making.spawn(move || {
            if let Some(one) = make(&teller) {
                // Nobody waits any more when it was given up.
                let _ = sender.send(one);
            }
            // Before the window looks.
            drop(sender);
            ctx.request_repaint();
        });
        Self {
            made: receiver,
            told,
            begun: Instant::now(),
        }
    }

    /// Takes what was made, once it is.
    pub fn take(&self) -> Stage<T> {
        match self.made.try_recv() {
            Ok(made) => Stage::Made(made),
            Err(TryRecvError::Empty) => Stage::Going,
            Err(TryRecvError::Disconnected) => Stage::Ended,
        }
    }

    /// A bar with how far it is, once it has lasted a while; whether it is to be broken off.
    #[expect(clippy::cast_precision_loss, reason = "some thousands of parts")]
    pub fn progress_ui(&self, ui: &mut Ui, what: &str) -> bool {
        let rest = SHOWN_AFTER.saturating_sub(self.begun.elapsed());
        if !rest.is_zero() {
            ui.ctx().request_repaint_after(rest);
            return false;
        }
        let done = self.told.done.load(Ordering::Relaxed);
        let of = self.told.of.load(Ordering::Relaxed);
        let (part, told) = match of {
            0 => (0.0, what.to_owned()),
            _ => (done as f32 / of as f32, format!("{what}: {done} of {of}")),
        };
        ui.label(told);
        let bar = ProgressBar::new(part);
        ui.add(if ui.layout().is_horizontal() {
            bar.desired_width(BAR_IN_A_ROW)
        } else {
            bar
        });
        ui.button("Cancel").clicked()
    }
}

impl<T> Making<T> {
    /// Gives it up; whether that could still be done.
    pub fn give_up(&self) -> bool {
        self.told.leave_open(GIVEN_UP)
    }
}

impl<T> Drop for Making<T> {
    fn drop(&mut self) {
        self.give_up();
    }
}

/// How a result stands that is kept until what it is made from changes.
#[derive(Debug)]
pub enum MadeState<T> {
    /// It is being made.
    Going(Making<T>),
    /// It is made.
    Made(T),
    /// It was broken off, or could not be made.
    Ended,
}

/// A result that is made on a thread of its own when its key changes, and kept until then.
#[derive(Debug)]
pub struct KeptMade<K, T> {
    key: Option<K>,
    state: MadeState<T>,
}

impl<K, T> Default for KeptMade<K, T> {
    fn default() -> Self {
        Self {
            key: None,
            state: MadeState::Ended,
        }
    }
}

impl<K: PartialEq, T: Send + 'static> KeptMade<K, T> {
    /// The result for a key: the one that is kept, or one that is begun now.
    pub fn get(&mut self, key: K, begin: impl FnOnce(&K) -> Making<T>) -> &MadeState<T> {
        if self.key.as_ref() != Some(&key) {
            self.state = MadeState::Going(begin(&key));
            self.key = Some(key);
        }
        if let MadeState::Going(making) = &self.state {
            match making.take() {
                Stage::Going => {}
                Stage::Made(made) => self.state = MadeState::Made(made),
                Stage::Ended => self.state = MadeState::Ended,
            }
        }
        &self.state
    }

    /// What was made, if it is.
    pub fn made(&self) -> Option<&T> {
        match &self.state {
            MadeState::Made(made) => Some(made),
            MadeState::Going(_) | MadeState::Ended => None,
        }
    }

    /// How it stands.
    pub fn state(&self) -> &MadeState<T> {
        &self.state
    }

    /// Breaks off what is being made.
    pub fn give_up(&mut self) {
        self.state = MadeState::Ended;
    }

    /// Has it made anew when it is asked for next.
    pub fn forget(&mut self) {
        *self = Self::default();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn waited<T: Send + 'static>(making: &Making<T>) -> Option<T> {
        loop {
            match making.take() {
                Stage::Going => thread::yield_now(),
                Stage::Made(made) => return Some(made),
                Stage::Ended => return None,
            }
        }
    }

    #[test]
    fn what_is_given_up_is_broken_off_at_its_next_word() {
        let ctx = Context::default();
        let (told, hears) = channel();
        let making: Making<()> = Making::begin(&ctx, "test", move |teller| {
            let mut parts = 0;
            while teller.tell(parts, 10).is_continue() {
                parts += 1;
                thread::yield_now();
            }
            told.send(parts).unwrap();
            None
        });
        // It goes on as long as somebody waits.
        assert!(matches!(making.take(), Stage::Going));
        assert!(hears.try_recv().is_err());
        drop(making);
        assert!(hears.recv().is_ok());
    }

    #[test]
    fn what_is_written_cannot_be_given_up_and_what_is_given_up_is_not_written() {
        let ctx = Context::default();
        let (go_on, waits) = channel::<()>();
        let (told, hears) = channel();
        let making: Making<bool> = Making::begin(&ctx, "test", move |teller| {
            waits.recv().ok()?;
            let is_past = teller.go_past().is_continue();
            told.send(is_past).unwrap();
            waits.recv().ok()?;
            Some(is_past)
        });
        go_on.send(()).unwrap();
        assert!(hears.recv().unwrap());
        assert!(!making.give_up());
        go_on.send(()).unwrap();
        assert_eq!(waited(&making), Some(true));
        let (go_on, waits) = channel::<()>();
        let making: Making<bool> = Making::begin(&ctx, "test", move |teller| {
            waits.recv().ok()?;
            Some(teller.go_past().is_continue())
        });
        assert!(making.give_up());
        go_on.send(()).unwrap();
        assert_eq!(waited(&making), Some(false));
    }

    #[test]
    fn a_result_is_made_when_its_key_changes_and_one_that_fails_is_told() {
        let ctx = Context::default();
        let mut kept = KeptMade::default();
        let mut begun = 0;
        for key in [1, 1, 2] {
            loop {
                let state = kept.get(key, |key| {
                    begun += 1;
                    let key = *key;
                    Making::begin(&ctx, "test", move |_| Some(10 * key))
                });
                if matches!(state, MadeState::Made(_)) {
                    break;
                }
                thread::yield_now();
            }
            assert_eq!(kept.made(), Some(&(10 * key)));
        }
        assert_eq!(begun, 2);
        let ended: Making<u8> = Making::begin(&ctx, "test", |_| None);
        assert_eq!(waited(&ended), None);
        assert_eq!(waited(&Making::begin(&ctx, "test", |_| Some(7))), Some(7));
    }
}
