//! Printing by the desktop's own print dialog.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

use crate::drawing::Page;

/// What is to be printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintJob {
    /// What it is called.
    pub title: String,
    /// The size of its paper.
    pub page: Page,
    /// Whether its pages lie on their side.
    pub is_lying: bool,
    /// The PDF.
    pub pdf: Arc<Vec<u8>>,
}

/// What comes of printing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Printed {
    /// The desktop took it.
    Sent,
    /// Nobody wanted it any more.
    GivenUp,
    /// There was no print dialog: why, where the system says so.
    NoDialog(String),
}

/// What comes of printing, once it is known; closed without an answer where there is no print dialog.
pub type Printing = Receiver<Printed>;

/// Prints by a dialog of the desktop's: the portal in the program, something else in tests. The window
/// goes on meanwhile.
pub trait Printer {
    /// Opens the print dialog for a job.
    fn print(&self, job: &PrintJob) -> Printing;
}

/// A desktop without a print dialog: for shots and tests.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoPrinter;

impl Printer for NoPrinter {
    fn print(&self, _: &PrintJob) -> Printing {
        channel().1
    }
}

/// The printer, and the jobs that no answer came for yet.
pub struct PrintDesk {
    printer: Box<dyn Printer>,
    awaited: Vec<(PrintJob, Printing)>,
}

impl Default for PrintDesk {
    fn default() -> Self {
        Self {
            printer: Box::new(NoPrinter),
            awaited: Vec::new(),
        }
    }
}

impl PrintDesk {
    /// Has jobs printed by this printer from here on.
    pub fn print_with(&mut self, printer: Box<dyn Printer>) {
        self.printer = printer;
    }

    /// Has a job printed.
    pub fn print(&mut self, job: PrintJob) {
        let printing = self.printer.print(&job);
        self.awaited.push((job, printing));
    }

    /// The jobs of which it is known since the last look what came of them.
    pub fn take_done(&mut self) -> Vec<(PrintJob, Printed)> {
        let mut done = Vec::new();
        self.awaited
            .retain(|(job, printing)| match printing.try_recv() {
                Ok(printed) => {
                    done.push((job.clone(), printed));
                    false
                }
                Err(TryRecvError::Empty) => true,
                Err(TryRecvError::Disconnected) => {
                    done.push((job.clone(), Printed::NoDialog(String::new())));
                    false
                }
            });
        done
    }
}
