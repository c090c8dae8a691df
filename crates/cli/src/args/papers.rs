//! Papers, and how they leave the program.

use super::{CAUTION, EXIT_CODES, Moment};
use clap::Args as ClapArgs;
use rigwright_press::Size;
use rigwright_units::System;

/// Makes papers: what the crew signs, posts and carries
///
/// Without further words it lists them. With a paper's name and a well it prints it here, or writes it with --pdf or
/// --xlsx. `all` writes the set into a folder. `verify` says whether a fingerprint on a paper belongs to the files as
/// they are now:
///
///   rigwright papers rig-fit well.toml --pdf rig-fit.pdf
///   rigwright papers running-sheet well.toml --section 2 --tally tally.csv --pdf running.pdf
///   rigwright papers all well.toml -o papers
///   rigwright papers verify well.toml 3f0a-91c2-77de
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("{EXIT_CODES}\n\n{CAUTION}"), verbatim_doc_comment)]
pub(crate) struct Papers {
    /// The paper, `all` or `verify`
    #[arg(value_name = "PAPER")]
    pub(crate) paper: Option<String>,
    /// The well file
    #[arg(value_name = "WELL")]
    pub(crate) well: Option<String>,
    /// The fingerprint on the paper, for `verify`
    #[arg(value_name = "FINGERPRINT")]
    pub(crate) fingerprint: Option<String>,
    /// The hole section of a paper that is of one section, by its name or its number from the top; without it the last
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// The tally of the section's casing, for `running-sheet` and `all`: CSV, its first line `joint, overall length [ft], make-up
    /// loss [in]` or `joint, made-up length [ft]`. For `verify` the tally or record that a paper names with its own fingerprint
    #[arg(long, value_name = "FILE")]
    pub(crate) tally: Option<String>,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    /// A second system of units, in brackets beside the first
    #[arg(long, value_name = "SYSTEM")]
    pub(crate) beside: Option<System>,
    #[command(flatten)]
    pub(crate) moment: Moment,
    /// The system of units: field, metric or canadian
    #[arg(long, value_name = "SYSTEM", default_value_t = System::Field)]
    pub(crate) units: System,
    #[command(flatten)]
    pub(crate) sheet: Sheet,
    /// The folder for `all`; made where it is missing
    #[arg(short, long, value_name = "DIR")]
    pub(crate) output: Option<String>,
}

/// How a paper leaves the program.
#[derive(Clone, Debug, ClapArgs)]
pub(crate) struct Sheet {
    /// Write it as PDF
    #[arg(long, value_name = "FILE")]
    pub(crate) pdf: Option<String>,
    /// Write it as a workbook with live formulas, where the paper has one
    #[arg(long, value_name = "FILE")]
    pub(crate) xlsx: Option<String>,
    /// Size of the sheet: a4 or letter
    #[arg(long, value_name = "SIZE", default_value_t = Size::A4)]
    pub(crate) size: Size,
    /// A folder with templates of your own
    #[arg(long, value_name = "DIR")]
    pub(crate) templates: Option<String>,
}

impl Sheet {
    /// Whether a file is wished for.
    pub(crate) fn is_wished(&self) -> bool {
        self.pdf.is_some() || self.xlsx.is_some()
    }
}
