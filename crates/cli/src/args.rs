//! What a user may type, and the help for it: help, completions and the man page are all made from here.

mod papers;
mod steps;

pub(crate) use papers::{Papers, Sheet};
pub(crate) use steps::{Due, LeakOff, Steps};

use clap::builder::Styles;
use clap::{Args as ClapArgs, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;
use jiff::Timestamp;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use rigwright_units::System;

/// Exit codes, told in every long help.
const EXIT_CODES: &str = "\
Exit codes:
  0  everything asked holds or is thin
  1  something is short
  2  the input is wrong: a file, a name or a value
  3  nothing is short, but something in `control` is unknown (with --strict: anything)
A closed pipe counts as success. NO_COLOR and pipes are respected.";

const CAUTION: &str = "\
Planning aid: local codes, the approved well-control manual and a certified person on site decide; a second person
recomputes. If the well flows, shut in first, compute after.";

/// Fits a rotary drilling rig and a well to each other.
///
/// Reads a well and the rig it names from plain text files, asks the questions of the five systems (hoisting, rotating,
/// circulating, power, control) at every depth and in every operation, names the weakest link and the smallest change
/// that mends it, and opens every figure into its working.
#[derive(Debug, Parser)]
#[command(name = "rigwright", version, max_term_width = 100, styles = Styles::plain(), after_long_help = EXIT_CODES)]
pub(crate) struct Args {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    Review(Review),
    Explain(Explain),
    Propose(Propose),
    Check(Check),
    Calc(Calc),
    Figure(Figure),
    KillSheet(KillSheet),
    Due(Due),
    LeakOff(LeakOff),
    Steps(Steps),
    LimitsCard(LimitsCard),
    TripSheet(TripSheet),
    Papers(Papers),
    New(New),
    Serve(Serve),
    Completions(Completions),
    Man(Man),
}

/// Reviews a well with its rig: the weakest link, every answer, remedies, assumptions
///
/// Derives every situation of the job from the files, asks every question of each, and prints the sheet: the weakest
/// link first, then a row for each question and a column for each hole section. A cell is a bar (how much of the limit
/// is used), a figure (the same in per cent) and a word: `short` (the limit is passed), `thin` (the limit is kept, the
/// wanted reserve is not), `holds`, `unknown` (an input is missing), `told` (a figure without a limit) or a dash where
/// the question does not arise.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("{EXIT_CODES}\nWith several rigs the worst of them sets the code.\n\n{CAUTION}"))]
pub(crate) struct Review {
    /// The well file
    pub(crate) well: String,
    /// A rig file in place of the one that the well names; several are put side by side
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Vec<String>,
    /// Exit with 3 when anything at all is unknown, not only in `control`
    #[arg(long)]
    pub(crate) strict: bool,
    #[command(flatten)]
    pub(crate) moment: Moment,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Shows the working of one figure, formula by formula
///
/// Prints every formula on the way with its signs, the numbers put in, the result, the source, its range and whether
/// the numbers lie inside it, so that it can be followed with a pocket calculator. Without further words the governing
/// situation is shown; SECTION, depths and OPERATION choose another.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = EXIT_CODES)]
pub(crate) struct Explain {
    /// The well file
    pub(crate) well: String,
    /// The question, such as `hoisting/hook-load`; without it the questions are listed
    #[arg(value_name = "SLUG")]
    pub(crate) question: Option<String>,
    /// The hole section, by its name ("12 1/4 in") or its number from the top
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// Measured depth of the hole, such as "7000 ft"; the nearest situation is taken
    #[arg(long, value_name = "DEPTH", allow_hyphen_values = true)]
    pub(crate) hole: Option<String>,
    /// Measured depth of the bit or casing shoe; the nearest situation is taken
    #[arg(long, value_name = "DEPTH", allow_hyphen_values = true)]
    pub(crate) bit: Option<String>,
    /// Where along the hole to look, as a measured depth, for questions that are asked at every depth
    #[arg(long, value_name = "DEPTH", allow_hyphen_values = true)]
    pub(crate) at: Option<String>,
    /// The operation: drilling, connection, circulating, pulling-out, running-in, running-casing or shut-in
    #[arg(long, value_name = "OPERATION")]
    pub(crate) during: Option<String>,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    /// All rows of long tables
    #[arg(long)]
    pub(crate) all: bool,
    /// Write it as a workbook whose cells hold the formulas: change a number and the rest follows
    #[arg(long, value_name = "FILE", conflicts_with = "json")]
    pub(crate) xlsx: Option<String>,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Proposes which knobs to turn, job by job: mud and pumps, nozzles, trip speeds, lines, pipe, sets
///
/// Turns the knobs of a job together, over their own steps: mud weight, flow, pumps, liners and nozzles of a section; the
/// fastest trips; drill pipe and collars; lines for drilling and for casing; generator sets. What is proposed is reviewed
/// again, whole, and says what it mends and what it spoils. Where nothing keeps all limits, it says which to relax first.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("Exit codes:\n  0  with all that is taken nothing is short\n  1  something still is\n  2  the input is wrong\n\n{CAUTION}"))]
pub(crate) struct Propose {
    /// The well file
    pub(crate) well: String,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Reads a well and its rig and reports everything that is wrong with them, all at once
#[derive(Debug, ClapArgs)]
#[command(after_long_help = EXIT_CODES)]
pub(crate) struct Check {
    /// The well file
    pub(crate) well: String,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    /// JSON, in the form that docs/json.md tells
    #[arg(long)]
    pub(crate) json: bool,
}

/// Works out one formula on its own, or lists all of them
///
/// Without a name every formula is listed. With a name only, it tells what the formula needs. Values carry their units:
///
///   rigwright calc hydrostatic-pressure density="10 ppg" vertical_depth="7000 ft"
#[derive(Debug, ClapArgs)]
#[command(after_long_help = EXIT_CODES, verbatim_doc_comment)]
pub(crate) struct Calc {
    /// The formula
    pub(crate) name: Option<String>,
    /// Its inputs: key="value unit"
    #[arg(value_name = "KEY=VALUE")]
    pub(crate) inputs: Vec<String>,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Draws a figure of a well as SVG
///
/// `window`: pore and fracture pressure with the mud's pressure still, flowing, pulling and running, against vertical
/// depth, in the open hole of each section at its end.
///
/// `hook-load`: hook load by bit depth, pulling out, turning and running in, over a band of friction, with what was read.
///
/// `days`: depth of hole and bit against days, over the whole programme.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = EXIT_CODES)]
pub(crate) struct Figure {
    /// The well file
    pub(crate) well: String,
    /// Which figure: window, hook-load or days
    #[arg(value_name = "FIGURE")]
    pub(crate) figure: String,
    /// The hole section, by its name ("12 1/4 in") or its number from the top; without it all of them, for `hook-load` the last
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    /// Where to write it; without this, or as `-`, to the terminal or pipe
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<String>,
    /// The system of units
    #[arg(long, value_name = "SYSTEM", default_value_t = System::Field)]
    pub(crate) units: System,
}

/// Makes a kill sheet from shut-in readings
///
/// Volumes and strokes by section, kill mud weight, initial and final circulating pressure, the schedule by strokes from
/// vertical depth and from each part's share of friction with the straight line beside it, driller's method and wait and
/// weight along the way, limits by their names, what came in, barite, room and time. For preventers at surface or on the sea
/// bed, and a bit on bottom. A slow rate that is older than the mud, the depth or the liner makes the sheet STALE.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("{EXIT_CODES}\n\n{CAUTION}"))]
pub(crate) struct KillSheet {
    /// The well file
    pub(crate) well: String,
    /// The hole section, by its name or its number from the top; without it the last
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// Measured depth of the hole, bit on bottom; without it the end of the section
    #[arg(long, value_name = "DEPTH")]
    pub(crate) hole: Option<String>,
    /// Shut-in drill pipe pressure, such as "280 psi"
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    pub(crate) sidpp: String,
    /// Shut-in casing pressure
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    pub(crate) sicp: String,
    /// Pit gain, such as "20 bbl" or "20 +/- 2 bbl"
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    pub(crate) gain: String,
    /// The float in the string
    #[arg(long, value_name = "FLOAT")]
    pub(crate) float: Option<FloatWord>,
    /// Pump speed wanted, such as "30 spm": the slow rate nearest to it is taken
    #[arg(long, value_name = "SPEED")]
    pub(crate) rate: Option<String>,
    /// Number of the pump that the kill is made with: only slow rates of it are taken
    #[arg(long, value_name = "NUMBER")]
    pub(crate) pump: Option<u32>,
    /// With the trade's rounded constants (0.052, 1029.4, 0.000243), to lay beside a sheet made by hand
    #[arg(long)]
    pub(crate) rounded: bool,
    /// The working of every figure below the sheet
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
    #[command(flatten)]
    pub(crate) sheet: Sheet,
}

/// Makes a card of what the well bears, shut in and on the move
///
/// For each section, or for one: the largest casing pressure by shoe, open hole, casing, preventers, wellhead, hose and manifold,
/// still and while pumping, which of them governs and when that changes as the design kick passes; kick tolerance by depth;
/// filling by kind of pipe; trip speeds by depth; what it rests on and how old that is.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("{EXIT_CODES}\n\n{CAUTION}"))]
pub(crate) struct LimitsCard {
    /// The well file
    pub(crate) well: String,
    /// The hole section, by its name or its number from the top; without it every section
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// Measured depth of the hole; without it the end of the section
    #[arg(long, value_name = "DEPTH", requires = "section")]
    pub(crate) hole: Option<String>,
    /// With the trade's rounded constants (0.052, 1029.4, 0.000243), to lay beside a sheet made by hand
    #[arg(long)]
    pub(crate) rounded: bool,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    #[command(flatten)]
    pub(crate) moment: Moment,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Makes a trip sheet: what each stand should take or give
///
/// Filling by kind of pipe, dry and wet, with the fall of level and pressure and the stands before the hole must be filled; the
/// slug; swab or surge at the planned speed and the fastest that keeps the margins; every stand with blank columns for what was
/// measured. --pdf writes it as a paper, --xlsx as a workbook whose formulas follow what is entered.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = format!("{EXIT_CODES}\n\n{CAUTION}"))]
pub(crate) struct TripSheet {
    /// The well file
    pub(crate) well: String,
    /// The hole section, by its name or its number from the top; without it the last
    #[arg(long, value_name = "SECTION")]
    pub(crate) section: Option<String>,
    /// Measured depth of the hole; without it the end of the section
    #[arg(long, value_name = "DEPTH")]
    pub(crate) hole: Option<String>,
    /// Measured depth of the bit or shoe at which the way out begins or the way in ends; without it the bottom of the hole
    #[arg(long, value_name = "DEPTH")]
    pub(crate) bit: Option<String>,
    /// Which way
    #[arg(long, value_name = "WAY", default_value = "out")]
    pub(crate) way: Way,
    /// How pipe comes out; without it dry where the well file gives a slug, else wet
    #[arg(long, value_name = "HOW")]
    pub(crate) pulled: Option<Pulled>,
    /// On the way in: a float keeps the mud out, and the bore displaces as well
    #[arg(long)]
    pub(crate) float: bool,
    /// The working of its figures below the sheet
    #[arg(long)]
    pub(crate) working: bool,
    /// All rows of long tables in the working
    #[arg(long)]
    pub(crate) all: bool,
    /// With the trade's rounded constants (0.052, 1029.4, 0.000243), to lay beside a sheet made by hand
    #[arg(long)]
    pub(crate) rounded: bool,
    /// A rig file in place of the one that the well names
    #[arg(long, value_name = "FILE")]
    pub(crate) rig: Option<String>,
    #[command(flatten)]
    pub(crate) moment: Moment,
    #[command(flatten)]
    pub(crate) sheet: Sheet,
    #[command(flatten)]
    pub(crate) form: Form,
}

/// Which way pipe goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Way {
    /// The drill string out of the hole
    Out,
    /// The drill string into the hole
    In,
    /// The casing or liner of the section into the hole
    Casing,
}

/// How pipe comes out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Pulled {
    /// Its mud stays in the hole
    Dry,
    /// Its mud comes out with it and is not given back
    Wet,
}

/// What is known of a float in the string.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FloatWord {
    /// There is one, and the drill pipe pressure was read by bumping it
    Bumped,
    /// There is none
    None,
}

/// Serves the page: the sheet, what-if, pictures, workings and the files, in a browser
///
/// Takes a well, or a folder of wells, and serves it on this machine until it is stopped. Nothing is sent elsewhere.
/// At an address that others can reach an access phrase is asked for: that of the variable RIGWRIGHT_PHRASE, or a new
/// one that is printed. The connection is not encrypted: for other networks put an encrypting proxy in front.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = CAUTION)]
pub(crate) struct Serve {
    /// The well file, or a folder of wells
    #[arg(value_name = "WELL | FOLDER", default_value = ".")]
    pub(crate) path: String,
    /// Address and port to listen at; port 0 takes a free one
    #[arg(long, value_name = "ADDR", default_value = "127.0.0.1:7117")]
    pub(crate) listen: std::net::SocketAddr,
    /// Open the page in the browser
    #[arg(long)]
    pub(crate) open: bool,
}

/// Writes a commented well and rig to begin with
///
/// The rig stands beside the well: `new my-well.toml` writes my-well.toml and my-well-rig.toml. Both review as they
/// stand. A file that exists is never overwritten.
#[derive(Debug, ClapArgs)]
#[command(after_long_help = EXIT_CODES)]
pub(crate) struct New {
    /// The well file to write
    pub(crate) well: String,
}

/// Prints a completion script for a shell
#[derive(Debug, ClapArgs)]
pub(crate) struct Completions {
    /// The shell
    pub(crate) shell: Shell,
}

/// Prints the manual page in roff
#[derive(Debug, ClapArgs)]
pub(crate) struct Man {}

/// In which form results are printed.
#[derive(Clone, Copy, Debug, ClapArgs)]
pub(crate) struct Form {
    /// The system of units: field, metric or canadian
    #[arg(long, value_name = "SYSTEM", default_value_t = System::Field)]
    pub(crate) units: System,
    /// JSON, in the form that docs/json.md tells
    #[arg(long)]
    pub(crate) json: bool,
}

/// For which moment.
#[derive(Clone, Copy, Debug, ClapArgs)]
pub(crate) struct Moment {
    /// The moment for which the ages of readings are told, such as 2026-12-01 or 2026-12-01T08:00Z; universal time
    /// unless it says otherwise [default: now]
    #[arg(long, value_name = "TIME", value_parser = moment)]
    pub(crate) as_of: Option<Timestamp>,
}

/// A moment with its offset, or a day and time of universal time.
fn moment(text: &str) -> Result<Timestamp, String> {
    let civil = |civil: DateTime| TimeZone::UTC.to_timestamp(civil);
    let parsed = text
        .parse::<Timestamp>()
        .or_else(|_| text.parse::<DateTime>().and_then(civil))
        .or_else(|_| text.parse::<Date>().and_then(|date| civil(date.into())));
    parsed.map_err(|_| format!("`{text}` is not a moment: write e.g. 2026-12-01 or 2026-12-01T08:00Z"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_arguments_do_not_contradict_each_other() {
        Args::command().debug_assert();
    }

    #[test]
    fn a_moment_may_be_a_day_a_time_or_exact() {
        let shown = |text: &str| moment(text).map(|moment| moment.to_string());
        assert_eq!(shown("2026-12-01").as_deref(), Ok("2026-12-01T00:00:00Z"));
        assert_eq!(shown("2026-12-01T08:00").as_deref(), Ok("2026-12-01T08:00:00Z"));
        assert_eq!(shown("2026-12-01 08:00:30").as_deref(), Ok("2026-12-01T08:00:30Z"));
        assert_eq!(shown("2026-12-01T08:00+02:00").as_deref(), Ok("2026-12-01T06:00:00Z"));
        assert!(shown("yesterday").is_err_and(|message| message.contains("`yesterday`")));
        assert!(shown("2026-13-01").is_err());
    }
}
