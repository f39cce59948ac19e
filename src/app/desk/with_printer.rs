//! The desk with its printer: what is printed goes to the desktop's print dialog, or to the PDF viewer
//! where there is none.

use super::Desk;
use super::printer::{PrintJob, Printed, Printer};
use crate::store;

impl Desk {
    /// Has sheets printed by this printer from here on.
    pub fn print_with(&mut self, printer: Box<dyn Printer>) {
        self.printing.print_with(printer);
    }

    /// Opens the desktop's print dialog for a job.
    pub fn print(&mut self, job: PrintJob) {
        self.printing.print(job);
    }

    /// Tells of each job what came of it; without a print dialog the PDF is opened outside.
    pub fn hear_from_printer(&mut self) {
        for (job, printed) in self.printing.take_done() {
            match printed {
                Printed::Sent => self.tell(format!("Sent to print: {}", job.title)),
                Printed::GivenUp => self.tell("Not printed: the print dialog was closed."),
                Printed::NoDialog(why) => self.view_to_print(&job, &why),
            }
        }
    }

    fn view_to_print(&mut self, job: &PrintJob, why: &str) {
        let why = match why {
            "" => String::new(),
            why => format!(" ({why})"),
        };
        match store::copy_to_view(&job.pdf) {
            Ok(file) => {
                self.tell(format!(
                    "This desktop gave no print dialog{why}. Trying its PDF viewer: print from there at 100 %, not fitted to the page."
                ));
                self.open_to_print(&file);
            }
            Err(error) => self.warn(format!(
                "Not printed: this desktop gave no print dialog{why}, and no copy can be written for its viewer: {}. Save the PDF and print it from there.",
                store::plain(&error)
            )),
        }
    }
}
