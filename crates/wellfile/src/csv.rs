//! Lists of figures as CSV: lines, cells and heads with their places, for surveys and tallies. What the columns mean is theirs.
//!
//! Cells are parted by commas, semicolons or tabs; lines that are empty or begin with `#` do not count.

use crate::source::{Place, Source};
use std::sync::Arc;

/// A piece of a line with where it begins in the file.
#[derive(Clone, Copy)]
pub(crate) struct Cell<'a> {
    pub(crate) text: &'a str,
    pub(crate) start: usize,
}

impl<'a> Cell<'a> {
    /// Where it stands.
    pub(crate) fn place(&self, source: &Arc<Source>) -> Place {
        Place { source: source.clone(), span: self.start..self.start + self.text.len() }
    }

    /// The name of a column, lower case, without its unit.
    pub(crate) fn name(&self) -> String {
        self.text.split(['[', '(']).next().unwrap_or("").trim().to_lowercase()
    }

    /// The unit of a column; empty without one.
    pub(crate) fn unit(&self) -> &'a str {
        self.text.split_once(['[', '(']).map_or("", |(_, rest)| rest.trim_end_matches([']', ')'])).trim()
    }
}

/// The lines that count, the head first.
pub(crate) fn lines(source: &Source) -> Vec<Cell<'_>> {
    let text = &source.text;
    let mut start = text.len() - text.trim_start_matches('\u{feff}').len();
    let mut lines = Vec::new();
    for line in text[start..].split_inclusive('\n') {
        let plain = line.trim();
        if !plain.is_empty() && !plain.starts_with('#') {
            lines.push(Cell { text: line.trim_end(), start });
        }
        start += line.len();
    }
    lines
}

/// The cells of a line, without blanks and quotes around them.
pub(crate) fn cells(line: Cell<'_>) -> Vec<Cell<'_>> {
    let separator = [';', '\t'].into_iter().find(|mark| line.text.contains(*mark)).unwrap_or(',');
    let mut start = line.start;
    line.text
        .split(separator)
        .map(|cell| {
            let text = cell.trim().trim_matches('"').trim();
            let offset = cell.find(text).unwrap_or(0);
            let found = Cell { text, start: start + offset };
            start += cell.len() + 1;
            found
        })
        .collect()
}
