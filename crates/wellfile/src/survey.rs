//! Survey files: CSV with a header that names each column and its unit, `md [ft], inclination [deg], azimuth [deg]`.
//!
//! Columns may stand in any order, others are passed over.

use crate::csv::{Cell, cells, lines};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::Row;
use crate::source::{Place, Source};
use rigwright_physics::Range;
use rigwright_units::{Kind, find_unit, parse};
use std::sync::Arc;

/// More stations than any well has.
const MOST_STATIONS: usize = 20_000;
const HELP: &str = "the first line names the columns with their units: `md [ft], inclination [deg], azimuth [deg]`";

/// Names of the three columns, and the kind of each.
const COLUMNS: [(&[&str], Kind); 3] = [
    (&["md", "measured depth", "depth"], Kind::Depth),
    (&["inclination", "inc", "incl"], Kind::Angle),
    (&["azimuth", "azi", "az"], Kind::Angle),
];

/// What a cell of a survey may be. [SI]
pub(crate) fn range(kind: Kind) -> Range {
    match kind {
        Kind::Depth => Range::between(0.0, 15_000.0),
        // Azimuths may run past north in either direction.
        _ => Range::between(-std::f64::consts::TAU, std::f64::consts::TAU),
    }
}

/// A column that is read: where it stands and its unit.
struct Column {
    index: usize,
    unit: String,
    kind: Kind,
}

/// The stations of a file; `None` when findings say why not.
pub(crate) fn rows(source: &Arc<Source>, report: &mut Report) -> Option<Vec<Row>> {
    let lines = lines(source);
    let Some((head, lines)) = lines.split_first() else {
        let finding = Finding::error("well::survey-file", "there is no station in this file").at(&place(source, 0, 0), "");
        report.push(finding.help(HELP));
        return None;
    };
    let columns = columns(source, *head, report)?;
    if lines.is_empty() || lines.len() > MOST_STATIONS {
        let message = format!("a survey of {} stations cannot be used", lines.len());
        report.push(
            Finding::error("well::survey-file", message).at(&place(source, head.start, head.text.len()), "below this header"),
        );
        return None;
    }
    let rows: Vec<Option<Row>> = lines.iter().map(|line| row(source, *line, &columns, report)).collect();
    rows.into_iter().collect()
}

fn place(source: &Arc<Source>, start: usize, length: usize) -> Place {
    Place { source: source.clone(), span: start..start + length }
}

fn columns(source: &Arc<Source>, head: Cell<'_>, report: &mut Report) -> Option<Vec<Column>> {
    let mut found = Vec::new();
    for (names, kind) in COLUMNS {
        let heads = cells(head);
        let wanted = heads.iter().enumerate().find(|(_, cell)| names.contains(&cell.name().as_str()));
        let Some((index, cell)) = wanted else {
            let message = format!("the survey has no column `{}`", names[0]);
            let finding =
                Finding::error("well::survey-file", message).at(&place(source, head.start, head.text.len()), "in this header");
            report.push(finding.help(HELP));
            continue;
        };
        let unit = cell.unit();
        match find_unit(unit, kind) {
            Ok(_) => found.push(Column { index, unit: unit.to_owned(), kind }),
            Err(error) => {
                let message = if unit.is_empty() { format!("the column `{}` has no unit", cell.text) } else { error.to_string() };
                let finding =
                    Finding::error("well::survey-file", message).at(&place(source, cell.start, cell.text.len()), "this column");
                report.push(finding.help(HELP));
            }
        }
    }
    (found.len() == COLUMNS.len()).then_some(found)
}

fn row(source: &Arc<Source>, line: Cell<'_>, columns: &[Column], report: &mut Report) -> Option<Row> {
    let cells = cells(line);
    let mut values = [0.0; 3];
    let mut good = true;
    for (value, column) in values.iter_mut().zip(columns) {
        let cell = cells.get(column.index).copied().unwrap_or(Cell { text: "", start: line.start + line.text.len() });
        match parse(&format!("{} {}", cell.text, column.unit), column.kind) {
            Ok(number) if range(column.kind).contains(number) => *value = number,
            _ => {
                let message = match cell.text {
                    "" => "a cell of the survey is empty".to_owned(),
                    text => format!("`{text}` is not a {} of a survey", column.kind.name()),
                };
                let finding =
                    Finding::error("well::survey-file", message).at(&place(source, cell.start, cell.text.len()), "this cell");
                report.push(finding.help(format!("write a plain number in {}; decimals take a point", column.unit)));
                good = false;
            }
        }
    }
    good.then(|| Row { values, place: place(source, line.start, line.text.len()) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Vec<[f64; 3]>, Vec<String>> {
        let mut report = Report::default();
        let source = Arc::new(Source::new("survey.csv".into(), text.into()));
        match rows(&source, &mut report) {
            Some(rows) => Ok(rows.iter().map(|row| row.values).collect()),
            None => Err(report.list.iter().map(ToString::to_string).collect()),
        }
    }

    #[test]
    fn law_columns_are_found_by_name_and_unit() {
        let plain = read("md [m],inclination [deg],azimuth [deg]\n0,0,0\n1000,2.5,140\n").unwrap();
        let turned =
            read("\u{feff}# a survey\nTool;Azimuth (deg);MD (ft); Inc (deg)\n\nx;0;0;0\ny;140;3280.8398950131236;2.5\n").unwrap();
        assert_eq!(plain.len(), 2);
        for (a, b) in plain.iter().flatten().zip(turned.iter().flatten()) {
            assert!((a - b).abs() < 1e-9, "{a} {b}");
        }
        assert!((plain[1][0] - 1000.0).abs() < 1e-9);
        assert!((plain[1][1] - 2.5f64.to_radians()).abs() < 1e-15);
    }

    #[test]
    fn law_faults_are_all_named() {
        assert_eq!(read("").unwrap_err().len(), 1);
        assert_eq!(read("1,2,3\n").unwrap_err().len(), 3);
        assert_eq!(read("md,inc [deg],azi [deg]\n1,2,3\n").unwrap_err(), ["the column `md` has no unit"]);
        assert_eq!(read("md [m],inc [deg],azi [deg]\n").unwrap_err().len(), 1);
        assert_eq!(read("md [m],inc [deg],azi [deg]\n1,x,y\n2\n-3,0,0\n").unwrap_err().len(), 5);
    }
}
