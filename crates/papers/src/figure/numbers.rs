//! The numbers of a figure as a table: for screen readers, copying and CSV.

use super::Figure;

/// The numbers of a figure: a row for each depth, a column for each line.
#[derive(Clone, Debug, PartialEq)]
pub struct Numbers {
    /// Heads of the columns with their units, the depth first.
    pub head: Vec<String>,
    /// The depth and, for each line, its value there; a line that has no point at that depth has none.
    pub rows: Vec<(f64, Vec<Option<f64>>)>,
}

/// The numbers of a figure, downward.
pub fn numbers(figure: &Figure) -> Numbers {
    let mut head = vec![format!("{} [{}]", figure.along.label, figure.along.unit)];
    head.extend(figure.series.iter().map(|series| format!("{} [{}]", series.name, figure.values.unit)));
    let mut points: Vec<(f64, usize, f64)> = Vec::new();
    for (column, series) in figure.series.iter().enumerate() {
        points.extend(series.runs.iter().flatten().map(|(across, down)| (*down, column, *across)));
    }
    // Stable: two values of one line at one depth, on either side of a step, stay in their order.
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut rows: Vec<(f64, Vec<Option<f64>>)> = Vec::new();
    for (down, column, across) in points {
        let free = rows.iter_mut().rev().take_while(|row| row.0.total_cmp(&down).is_eq());
        match free.filter(|row| row.1[column].is_none()).last() {
            Some(row) => row.1[column] = Some(across),
            None => {
                let mut values = vec![None; figure.series.len()];
                values[column] = Some(across);
                rows.push((down, values));
            }
        }
    }
    Numbers { head, rows }
}

/// The numbers as CSV after RFC 4180, to six significant digits.
pub fn csv(figure: &Figure) -> String {
    let numbers = numbers(figure);
    let mut out = numbers.head.iter().map(|head| quoted(head)).collect::<Vec<_>>().join(",");
    out.push_str("\r\n");
    for (down, values) in &numbers.rows {
        out.push_str(&number(*down));
        for value in values {
            out.push(',');
            out.push_str(&value.map_or_else(String::new, number));
        }
        out.push_str("\r\n");
    }
    out
}

/// A number to four significant digits, without an exponent.
pub fn rounded(value: f64) -> String {
    let places = if value.abs() > 0.0 { (3.0 - value.abs().log10().floor()).clamp(0.0, 6.0) as usize } else { 0 };
    format!("{value:.places$}")
}

/// A number to six significant digits, without an exponent.
pub fn number(value: f64) -> String {
    let places = if value.abs() > 0.0 { (5.0 - value.abs().log10().floor()).clamp(0.0, 12.0) as usize } else { 0 };
    let text = format!("{value:.places$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

pub(super) fn quoted(text: &str) -> String {
    // A spreadsheet takes text that begins like a formula for one.
    let guard = if text.starts_with(['=', '+', '-', '@']) { "'" } else { "" };
    format!("\"{guard}{}\"", text.replace('"', "\"\""))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::{Axis, Lie, Role, Series};

    #[test]
    fn lines_meet_in_one_row_where_their_depths_do() {
        let axis = |label: &str, unit: &str| Axis { label: label.into(), unit: unit.into() };
        let line = |name: &str, run: Vec<(f64, f64)>| Series { name: name.into(), role: Role::Still, runs: vec![run] };
        let figure = Figure {
            title: String::new(),
            note: String::new(),
            values: axis("load", "klbf"),
            along: axis("depth", "ft"),
            bands: vec![],
            // The second line has a step at 100 ft.
            series: vec![
                line("up, \"slow\"", vec![(1.0, 0.0), (2.0, 100.0)]),
                line("down", vec![(0.5, 100.0), (0.25, 100.0), (1.0 / 3.0, 300.0)]),
            ],
            marks: vec![],
            lie: Lie::Downward,
            from_zero: true,
        };
        let printed = csv(&figure);
        let wanted =
            "\"depth [ft]\",\"up, \"\"slow\"\" [klbf]\",\"down [klbf]\"\r\n0,1,\r\n100,2,0.5\r\n100,,0.25\r\n300,,0.333333\r\n";
        assert_eq!(printed, wanted);
    }

    #[test]
    fn six_digits_and_no_exponent() {
        assert_eq!([0.0, 1234567.0, 0.012345678, -2.5, 100.0].map(number), ["0", "1234567", "0.0123457", "-2.5", "100"]);
    }
}
