//! What `steps`, `leak-off` and `due` take.

use super::{CAUTION, Form, Moment, Sheet};
use clap::Args as ClapArgs;

/// Makes step tables ready to follow: volumetric, lubricate and bleed, bullheading, stripping, managed pressure
///
/// Without a method the methods are listed. Readings are typed with their units; what is not typed comes from the design kick
/// of the well file, and the paper says PLAN:
///
///   rigwright steps examples/ostrick.toml volumetric sidpp="280 psi" sicp="420 psi" gain="20 bbl"
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("Exit codes:\n  0  no limit that is known is passed on the way\n  1  one is\n  2  the input is wrong, or there are no safe steps\n\n{CAUTION}"), verbatim_doc_comment)]
pub(crate) struct Steps {
    /// The well file
    pub(crate) well: String,
    /// The method
    pub(crate) method: Option<String>,
    /// Readings and choices: key="value unit"
    #[arg(value_name = "KEY=VALUE")]
    pub(crate) inputs: Vec<String>,
    /// What the method takes, and nothing else
    #[arg(long)]
    pub(crate) needs: bool,
    /// The hole section, by its name or its number from the top; without it the last
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// Measured depth of the hole; without it the end of the section
    #[arg(long, value_name = "DEPTH", allow_hyphen_values = true)]
    pub(crate) hole: Option<String>,
    /// Measured depth of the bit; without it on bottom
    #[arg(long, value_name = "DEPTH", allow_hyphen_values = true)]
    pub(crate) bit: Option<String>,
    /// The working of its figures below the steps
    #[arg(long)]
    pub(crate) working: bool,
    /// All rows of long tables in the working
    #[arg(long)]
    pub(crate) all: bool,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    #[command(flatten)]
    pub(crate) moment: Moment,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Lists tests and drills that fall due by the rules of the well's jurisdiction
///
/// Intervals, criteria and citations are data, each as far as it was read: verify the current text. The last days stand in the
/// well file as `[[last_done]]`. A jurisdiction that is not known shows nothing as met.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("Exit codes:\n  0  all that is known is in time\n  1  something is overdue\n  2  the input is wrong\n  3  something was never recorded, or no rule is known\n\n{CAUTION}"))]
pub(crate) struct Due {
    /// The well file
    pub(crate) well: String,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    /// JSON, in the form that docs/json.md tells
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) moment: Moment,
}

/// Reads a shoe test from its record: the line, the pick with its interval, the leak-off weight
///
/// RECORD is a CSV file whose first line names its columns with their units, `volume [bbl], pressure [psi]`: volume pumped in
/// all. A record that never leaves its line is told as FIT, which is no fracture pressure. `--pdf FILE` writes the report with its
/// plot:
///
///   rigwright leak-off examples/ostrick.toml examples/shoe-test.csv --pdf shoe-test.pdf
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("Exit codes:\n  0  the record was read\n  2  the input is wrong\n\n{CAUTION}"), verbatim_doc_comment)]
pub(crate) struct LeakOff {
    /// The well file
    pub(crate) well: String,
    /// The record
    pub(crate) record: String,
    /// The hole section whose casing was tested; without it the last but one
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// Mud weight of the test; without it that of the section
    #[arg(long, value_name = "WEIGHT")]
    pub(crate) weight: Option<String>,
    /// The working of its figures below
    #[arg(long)]
    pub(crate) working: bool,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    #[command(flatten)]
    pub(crate) moment: Moment,
    #[command(flatten)]
    pub(crate) form: Form,
    #[command(flatten)]
    pub(crate) sheet: Sheet,
}
