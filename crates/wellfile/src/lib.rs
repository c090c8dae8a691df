//! Well and rig files: TOML text to a checked [`Fit`](rigwright_well::Fit), or all findings at once with their places.
//!
//! One static table, [`ENTRIES`], says everything that a user can write: form, range, whether it is required,
//! defaulted or `unknown` when absent, help, and for what the crew may choose its [`Knob`]. The walk over the
//! spanned tree of a file, hints, starter files, what-if and the list of assumptions all read this table.
//!
//! The way of a file: [`Files`] gives its bytes; the walk takes every value that its entry wants and reports the
//! rest; checks compare entries with each other; only when nothing is wrong is the model built.

mod build;
mod checks;
mod csv;
mod edit;
mod entries;
mod entry;
mod finding;
mod grow;
mod knob;
mod knobs;
mod nearest;
mod nozzles;
mod provenance;
mod pump_in;
mod read;
mod report;
mod sheet;
mod source;
mod starter;
mod subjects;
mod survey;
mod take;
mod tally;
mod tree;
mod walk;

pub use edit::{Fault, edit, edit_read, named_rig, with_survey_file};
pub use entries::{ENTRIES, entry};
pub use entry::{Entry, Form, Presence};
pub use finding::{Finding, Findings, Label, Severity};
pub use grow::{StockPart, stock_parts, with_part, with_section};
pub use knob::{Ease, Knob, Step, knob};
pub use knobs::nozzles_text;
pub use nearest::nearest;
pub use provenance::{Origin, Provenance};
pub use pump_in::pump_in;
pub use read::{Loaded, read, read_again};
pub use source::{Disk, Files, LARGEST_FILE, Place, Source};
pub use starter::{Starter, starter};
pub use subjects::{Slot, Subject, subjects};
pub use tally::{Tallied, tally};
