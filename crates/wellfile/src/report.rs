//! Collects findings while a well is read.

use crate::finding::{Finding, Severity};

/// More than this helps nobody; the rest is counted.
pub(crate) const MOST: usize = 200;

/// The findings so far.
#[derive(Debug, Default)]
pub(crate) struct Report {
    pub(crate) list: Vec<Finding>,
    pub(crate) more: usize,
    /// Whether a file has syntax errors: what seems missing may then only be unreadable.
    pub(crate) broken: bool,
}

impl Report {
    pub(crate) fn push(&mut self, finding: Finding) {
        if self.full() {
            self.more += 1;
        } else {
            self.list.push(finding);
        }
    }

    /// Whether further findings are only counted.
    pub(crate) fn full(&self) -> bool {
        self.list.len() >= MOST
    }

    pub(crate) fn failed(&self) -> bool {
        self.list.iter().any(|finding| finding.severity == Severity::Error)
    }
}
