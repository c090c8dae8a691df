//! Papers as values: what the crew signs, posts and carries, before anything is typeset.
//!
//! A paper says what it rests on and how old that is, carries its cautions, and bears a fingerprint of the files that it
//! came from. It holds finished text; a template decides only how that looks.

mod bit;
mod due;
mod fingerprint;
mod handover;
mod kill;
mod kinds;
mod leak_off;
mod limits;
mod line;
mod mud;
mod pen;
mod plain;
mod power;
mod preventers;
mod programme;
mod rests;
mod rig_fit;
mod rows;
mod running;
mod set;
mod trip;

pub use fingerprint::{Fingerprint, fingerprint, fingerprint_of};
pub use kill::kill_sheet;
pub use kinds::{PAPERS, PaperKind};
pub use leak_off::{LEAK_OFF_REPORT, Record, leak_off_report};
pub use pen::Pen;
pub use plain::plain;
pub use running::{RUNNING_SHEET, running_paper, tallied_paper};
pub use set::{KILL_SHEET, blank_kill_sheet, set};
pub use trip::{trip_order, trip_paper};

use crate::figure::Figure;
use crate::subject::{Subject, counted};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use rigwright_units::System;
use serde::Serialize;

/// A paper.
#[derive(Clone, Debug, Serialize)]
pub struct Paper {
    /// Its name in commands and file names.
    pub slug: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Whether the trade expects it on one page.
    pub one_page: bool,
    /// Whether it is about pressure control: then its first caution stands at its head.
    pub control: bool,
    /// Well, rig and what else stands at its head and foot.
    pub head: Head,
    /// Why it must not be used, where that is so: printed across its face.
    pub stale: Vec<String>,
    /// What it says.
    pub parts: Vec<Part>,
    /// Its cautions.
    pub cautions: Vec<&'static str>,
}

/// What every paper states about itself.
#[derive(Clone, Debug, Serialize)]
pub struct Head {
    /// Name of the well.
    pub well: String,
    /// Name of the rig.
    pub rig: String,
    /// What depths are counted from.
    pub datum: String,
    /// The moment for which it is made.
    pub as_of: String,
    /// Version of the program.
    pub version: String,
    /// Fingerprint of the files that it came from.
    pub fingerprint: String,
    /// Units that it is printed in.
    pub units: String,
    /// Dated readings and tests that it rests on.
    pub rests_on: Vec<Rest>,
    /// What was noticed while the files were read.
    pub notices: Vec<String>,
}

/// A dated reading or test, with its age at the moment of the paper.
#[derive(Clone, Debug, Serialize)]
pub struct Rest {
    /// What was read.
    pub what: String,
    /// The day.
    pub date: String,
    /// How long ago that is.
    pub age: String,
}

/// A part of a paper, from top to bottom.
#[derive(Clone, Debug, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Part {
    /// A heading over what follows.
    Heading {
        /// Its words.
        text: String,
        /// 1 for a section of the paper, 2 below it.
        level: u8,
        /// Whether it begins a page.
        new_page: bool,
    },
    /// A paragraph.
    Text {
        /// Its words.
        text: String,
        /// Whether the eye should find it first.
        strong: bool,
    },
    /// Labelled values, side by side in large figures.
    Facts {
        /// The values.
        facts: Vec<Fact>,
    },
    /// A table.
    Table(Table),
    /// A figure.
    Figure {
        /// What it shows; also read aloud.
        caption: String,
        /// The figure, written as SVG beside the paper.
        #[serde(skip)]
        figure: Box<Figure>,
    },
    /// Tables and words side by side, to save height; no figures.
    Beside {
        /// What stands in each column, from top to bottom.
        columns: Vec<Vec<Part>>,
    },
    /// Lines to sign: who and what for.
    Signatures {
        /// Who signs.
        lines: Vec<String>,
    },
}

/// A labelled value.
#[derive(Clone, Debug, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: String,
    /// A word about it.
    pub note: String,
}

/// A table.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Table {
    /// What it holds.
    pub caption: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows; each as long as the columns.
    pub rows: Vec<Vec<Cell>>,
    /// Whether the crew writes in it: then every cell has its box.
    pub form: bool,
}

/// A column.
#[derive(Clone, Debug, Serialize)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Whether it holds numbers, which stand right.
    pub number: bool,
    /// Share of the width; nought for as wide as what it holds.
    pub share: u8,
}

/// A cell.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Cell {
    /// Its words; empty where the crew writes.
    pub text: String,
    /// Whether it stands out.
    pub strong: bool,
}

impl From<String> for Cell {
    fn from(text: String) -> Cell {
        Cell { text, strong: false }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Cell {
        Cell { text: text.to_owned(), strong: false }
    }
}

impl Table {
    /// A table with these heads: one that begins with `>` holds numbers; those that have stars next share the room that
    /// is left, by the number of their stars.
    pub(crate) fn new(caption: &str, heads: &[&str]) -> Table {
        let column = |head: &&str| Column {
            number: head.starts_with('>'),
            share: head.trim_start_matches('>').bytes().take_while(|byte| *byte == b'*').fold(0, |stars, _| stars + 1),
            head: head.trim_start_matches(['>', '*']).to_owned(),
        };
        Table { caption: caption.to_owned(), columns: heads.iter().map(column).collect(), rows: Vec::new(), form: false }
    }

    /// A table that the crew fills in.
    pub(crate) fn form(caption: &str, heads: &[&str]) -> Table {
        Table { form: true, ..Table::new(caption, heads) }
    }

    /// One more row.
    pub(crate) fn row<const N: usize>(&mut self, cells: [Cell; N]) {
        self.rows.push(cells.into());
    }
}

impl Part {
    /// A heading of the paper.
    pub(crate) fn heading(text: impl Into<String>) -> Part {
        Part::Heading { text: text.into(), level: 1, new_page: false }
    }

    /// A smaller heading.
    pub(crate) fn below(text: impl Into<String>) -> Part {
        Part::Heading { text: text.into(), level: 2, new_page: false }
    }

    /// A paragraph.
    pub(crate) fn text(text: impl Into<String>) -> Part {
        Part::Text { text: text.into(), strong: false }
    }

    /// A paragraph that the eye should find first.
    pub(crate) fn strong(text: impl Into<String>) -> Part {
        Part::Text { text: text.into(), strong: true }
    }
}

/// What a paper is made of.
pub struct Desk<'a> {
    /// The review and its files.
    pub subject: &'a Subject<'a>,
    /// A second system of units to print beside the first.
    pub beside: Option<System>,
    /// Fingerprint of the files.
    pub fingerprint: &'a Fingerprint,
    /// Version of the program.
    pub version: &'a str,
    /// Index of the section that a paper of one section is of; without it the last.
    pub section: Option<usize>,
}

impl Desk<'_> {
    /// The section that a paper of one section is of.
    pub fn section(&self) -> usize {
        self.section.unwrap_or_else(|| self.subject.fit.well.sections.len().saturating_sub(1))
    }

    /// The day of the paper.
    pub(crate) fn day(&self) -> Date {
        TimeZone::UTC.to_datetime(self.subject.as_of).date()
    }

    /// Prints values in the paper's units.
    pub(crate) fn pen(&self) -> Pen {
        Pen { units: self.subject.units, beside: self.beside }
    }

    /// Where a question was asked: section and situation.
    pub fn where_asked(&self, asked: &rigwright_margins::Asked) -> String {
        match asked.section {
            Some(section) => format!("{}: {}", self.subject.section(Some(section)), self.subject.situation(asked)),
            None => "the rig".to_owned(),
        }
    }

    /// How long ago a day is.
    pub(crate) fn age(&self, days: i32) -> String {
        match days {
            0 => "today".to_owned(),
            days if days > 0 => format!("{} old", counted(days.unsigned_abs() as usize, "day")),
            days => format!("in {}", counted(days.unsigned_abs() as usize, "day")),
        }
    }

    /// The head of a paper on the whole job, which rests on every dated reading.
    pub fn head(&self) -> Head {
        self.head_of("", None)
    }

    /// The head of a kind of paper, of one section where it is of one.
    pub(crate) fn head_of(&self, slug: &str, section: Option<usize>) -> Head {
        let well = &self.subject.fit.well;
        let units = match self.beside {
            Some(beside) => format!("{} ({})", self.subject.units, beside),
            None => self.subject.units.to_string(),
        };
        Head {
            well: well.name.clone(),
            rig: self.subject.fit.rig.name.clone(),
            datum: well.datum.clone(),
            as_of: self.subject.as_of(),
            version: self.version.to_owned(),
            fingerprint: self.fingerprint.to_string(),
            units,
            rests_on: rests::rests(self, slug, section),
            notices: self.subject.cautions.iter().map(ToString::to_string).collect(),
        }
    }
}
