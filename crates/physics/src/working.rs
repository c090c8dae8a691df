//! The way to a figure, written down by the very code that computes it.
//!
//! Code that computes takes `&mut impl Recorder`. With [`Off`] every call compiles to the bare formula;
//! with [`Working`] each formula, its numbers and its result become a line that a person can follow.

use crate::{Formula, FormulaRecord, Kind};

/// Takes formulas while computing. `ON` lets a march skip the upkeep that only a reader needs.
pub trait Recorder {
    /// Whether anything is written down.
    const ON: bool;
    /// Evaluates a formula and notes it.
    fn take<F: Formula>(&mut self, formula: F) -> f64;
    /// Starts a part of the working.
    fn heading(&mut self, title: &'static str);
    /// A remark: an assumption, a choice between methods, a regime.
    fn note(&mut self, text: impl FnOnce() -> String);
    /// A figure read from the well or rig file, or a result of another part, that the next lines use.
    fn given(&mut self, what: &'static str, value: f64, kind: Kind);
    /// Names the piece that the next lines are about, between two measured depths. [m]
    fn stretch(&mut self, what: impl FnOnce() -> String, top: f64, bottom: f64);
    /// Many like steps as a table; the caller shows the first, the worst and the last in full.
    fn table(&mut self, title: &'static str, columns: &'static [(&'static str, Kind)], rows: impl FnOnce() -> Vec<Vec<f64>>);
    /// The solution of an equation, to be checked by putting it in: the residual should be nought.
    fn root(&mut self, root: Root);
}

/// A solved equation.
#[derive(Clone, Debug)]
pub struct Root {
    /// The equation in plain text.
    pub equation: &'static str,
    /// Sign of the unknown.
    pub sign: &'static str,
    /// What the unknown is.
    pub meaning: &'static str,
    /// Kind of the unknown.
    pub kind: Kind,
    /// The root. [SI]
    pub value: f64,
    /// Left side less right side at the root. [SI of `residual_kind`]
    pub residual: f64,
    /// Kind of the residual.
    pub residual_kind: Kind,
}

/// Notes nothing.
#[derive(Clone, Copy, Debug, Default)]
pub struct Off;

impl Recorder for Off {
    const ON: bool = false;
    #[inline(always)]
    fn take<F: Formula>(&mut self, formula: F) -> f64 {
        formula.value()
    }
    #[inline(always)]
    fn heading(&mut self, _title: &'static str) {}
    #[inline(always)]
    fn note(&mut self, _text: impl FnOnce() -> String) {}
    #[inline(always)]
    fn given(&mut self, _what: &'static str, _value: f64, _kind: Kind) {}
    #[inline(always)]
    fn stretch(&mut self, _what: impl FnOnce() -> String, _top: f64, _bottom: f64) {}
    #[inline(always)]
    fn table(&mut self, _title: &'static str, _columns: &'static [(&'static str, Kind)], _rows: impl FnOnce() -> Vec<Vec<f64>>) {}
    #[inline(always)]
    fn root(&mut self, _root: Root) {}
}

/// One line of a working.
#[derive(Clone, Debug)]
pub enum Line {
    /// Start of a part.
    Heading(&'static str),
    /// A formula with its numbers and its result. [SI]
    Step {
        /// The formula.
        record: &'static FormulaRecord,
        /// Its inputs in the record's order.
        inputs: Vec<f64>,
        /// Its result.
        value: f64,
    },
    /// A remark. It holds no figures with units: those are `Given`, so that every unit system can print them.
    Note(String),
    /// A figure from elsewhere.
    Given {
        /// What it is.
        what: &'static str,
        /// Its value. [SI]
        value: f64,
        /// Its kind.
        kind: Kind,
    },
    /// The piece that the next lines are about.
    Stretch {
        /// What it is called.
        what: String,
        /// Measured depth of the upper end. [m]
        top: f64,
        /// Measured depth of the lower end. [m]
        bottom: f64,
    },
    /// Like steps.
    Table {
        /// What the rows are.
        title: &'static str,
        /// Name and kind of each column.
        columns: &'static [(&'static str, Kind)],
        /// Values by row. [SI]
        rows: Vec<Vec<f64>>,
    },
    /// A solved equation.
    Root(Root),
}

/// Notes every line in order.
#[derive(Clone, Debug, Default)]
pub struct Working {
    /// The lines, first to last.
    pub lines: Vec<Line>,
}

impl Recorder for Working {
    const ON: bool = true;
    fn take<F: Formula>(&mut self, formula: F) -> f64 {
        let value = formula.value();
        self.lines.push(Line::Step { record: F::RECORD, inputs: formula.inputs().as_ref().to_vec(), value });
        value
    }
    fn heading(&mut self, title: &'static str) {
        self.lines.push(Line::Heading(title));
    }
    fn note(&mut self, text: impl FnOnce() -> String) {
        self.lines.push(Line::Note(text()));
    }
    fn given(&mut self, what: &'static str, value: f64, kind: Kind) {
        self.lines.push(Line::Given { what, value, kind });
    }
    fn stretch(&mut self, what: impl FnOnce() -> String, top: f64, bottom: f64) {
        self.lines.push(Line::Stretch { what: what(), top, bottom });
    }
    fn table(&mut self, title: &'static str, columns: &'static [(&'static str, Kind)], rows: impl FnOnce() -> Vec<Vec<f64>>) {
        self.lines.push(Line::Table { title, columns, rows: rows() });
    }
    fn root(&mut self, root: Root) {
        self.lines.push(Line::Root(root));
    }
}
