//! The grid of verdicts: rows of questions by system, a column for each section or rig, in each cell a bar, a figure
//! and a word.
//!
//! The bar is the share of the limit that is used, counted from the limit's own zero. A thin stroke behind it is the
//! limit; a bar that is too long breaks through it.

use crate::text::{Align, Span, Style, Text, WIDTH, cut, pad};
use rigwright_margins::{Answer, SYSTEMS, Verdict};
use rigwright_units::{System, show};

/// Columns that stand side by side before the grid goes on below.
const SIDE_BY_SIDE: usize = 3;
const TITLE: usize = 24;
const BAR: usize = 8;
const FIGURE: usize = 5;
const WORD: usize = 7;
/// A cell: bar, stroke, figure and word with a space before each of the last two.
const CELL: usize = BAR + 1 + 1 + FIGURE + 1 + WORD;
const GAP: usize = 2;
const _: () = assert!(TITLE + SIDE_BY_SIDE * (GAP + CELL) <= WIDTH, "the grid must fit its paper");

/// One row: a question and its answer in each column, if it is asked there.
pub(crate) struct Row<'a> {
    pub(crate) system: &'static str,
    pub(crate) title: &'static str,
    pub(crate) answers: Vec<Option<&'a Answer>>,
}

/// Adds a grid; rows stand in the order of the catalogue.
pub(crate) fn grid(text: &mut Text, columns: &[&str], rows: &[Row], units: System) {
    for (block, heads) in columns.chunks(SIDE_BY_SIDE).enumerate() {
        if block > 0 {
            text.blank();
        }
        let from = block * SIDE_BY_SIDE;
        let mut line: Vec<Span> = vec![pad("", TITLE, Align::Left).into()];
        line.extend(heads.iter().map(|head| {
            let head = cut(head, CELL);
            Span::from(format!("{}{}", " ".repeat(GAP), pad(&head, CELL, Align::Left)))
        }));
        text.line(line);
        for system in SYSTEMS {
            let mut of_system = rows.iter().filter(|row| row.system == system.name).peekable();
            if of_system.peek().is_some() {
                text.heading(system.name);
            }
            for row in of_system {
                let mut line: Vec<Span> = vec![pad(&cut(row.title, TITLE), TITLE, Align::Left).into()];
                for answer in row.answers.iter().skip(from).take(heads.len()) {
                    line.push(" ".repeat(GAP).into());
                    line.extend(answer.map_or_else(|| vec![" ".repeat(CELL).into()], |answer| cell(answer, units)));
                }
                text.line(line);
            }
        }
    }
}

/// Bar, figure and word of an answer; always as wide as a cell.
pub(crate) fn cell(answer: &Answer, units: System) -> Vec<Span> {
    let verdict = answer.verdict();
    let style = if verdict == Verdict::Short { Style::Strong } else { Style::Plain };
    let word = match verdict {
        Verdict::DoesNotArise => "—",
        other => other.word(),
    };
    let word = Span::new(pad(word, WORD, Align::Left), style);
    match answer {
        Answer::Judged(judged) => {
            let (bar, figure) = (bar(judged.share()), percent(judged.share()));
            vec![Span::new(bar, Style::Accent), Span::new(format!(" {} ", pad(&figure, FIGURE, Align::Right)), style), word]
        }
        Answer::Told(figures) => {
            let wide = BAR + 1 + 1 + FIGURE;
            let figure = figures.first().map(|figure| show(figure.value, figure.kind, units)).unwrap_or_default();
            vec![format!("{} ", pad(&cut(&figure, wide), wide, Align::Right)).into(), word]
        }
        Answer::Missing(_) | Answer::DoesNotArise(_) => {
            let mark = if verdict == Verdict::Unknown { "?" } else { "" };
            vec![format!("{} ", pad(mark, BAR + 1 + 1 + FIGURE, Align::Right)).into(), word]
        }
    }
}

/// A share as a bar of eighths of a column, rounded up, with the stroke of the limit behind it.
fn bar(share: f64) -> String {
    const EIGHTHS: [&str; 8] = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"];
    if share > 1.0 {
        return "█".repeat(BAR + 1);
    }
    // What is not a number has no bar.
    let parts = if share > 0.0 { (share * (BAR * 8) as f64).ceil() as usize } else { 0 };
    let drawn = format!("{}{}", "█".repeat(parts / 8), EIGHTHS[parts % 8]);
    format!("{}│", pad(&drawn, BAR, Align::Left))
}

/// A share in per cent, rounded up: nothing looks to hold that does not.
pub(crate) fn percent(share: f64) -> String {
    if !share.is_finite() {
        return "—".to_owned();
    }
    let percent = (share * 100.0 - 1e-9).ceil();
    if percent > 999.0 {
        ">999%".to_owned()
    } else if percent < -99.0 {
        "<-99%".to_owned()
    } else {
        // A whole number, which has no minus before a nought.
        format!("{} %", percent as i64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::width;
    use rigwright_margins::{Figure, Judged, Limit, Place};
    use rigwright_units::Kind;

    fn judged(demand: f64) -> Answer {
        let limit = Limit { capacity: 100.0, reserve: 10.0, name: "mast", source: "nameplate" };
        Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
    }

    fn plain(answer: &Answer) -> String {
        cell(answer, System::Field).iter().map(|span| span.text.as_str()).collect()
    }

    #[test]
    fn a_cell_is_a_bar_a_figure_and_a_word() {
        assert_eq!(plain(&judged(0.0)), "        │   0 % holds  ");
        assert_eq!(plain(&judged(50.0)), "████    │  50 % holds  ");
        assert_eq!(plain(&judged(90.1)), "███████▎│  91 % thin   ");
        assert_eq!(plain(&judged(100.0)), "████████│ 100 % thin   ");
        assert_eq!(plain(&judged(100.01)), "█████████ 101 % short  ");
        assert_eq!(plain(&Answer::Missing(vec!["kick.volume"])), "              ? unknown");
        assert_eq!(plain(&Answer::DoesNotArise("no casing")), "                —      ");
        let lag = Answer::Told(vec![Figure { name: "lag", value: 3000.0, kind: Kind::Time }]);
        assert_eq!(plain(&lag), "       50.0 min told   ");
    }

    #[test]
    fn law_every_cell_is_as_wide_as_its_column() {
        for demand in [-1e9, -50.0, 0.0, 1e-9, 33.3, 99.999, 100.0, 250.0, 1e9, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(width(&plain(&judged(demand))), CELL, "{demand}");
        }
        let long = Answer::Told(vec![Figure { name: "all", value: 1e30, kind: Kind::Volume }]);
        assert_eq!(width(&plain(&long)), CELL);
        assert_eq!(width(&plain(&Answer::Told(vec![]))), CELL);
    }

    #[test]
    fn law_a_limit_that_is_passed_is_never_printed_as_kept() {
        for demand in [100.0f64.next_up(), 100.000_001, 100.2] {
            assert!(plain(&judged(demand)).starts_with(&"█".repeat(BAR + 1)), "{demand}");
        }
        assert_eq!(percent(0.991), "100 %");
    }

    #[test]
    fn law_every_title_fits_its_column() {
        let long: Vec<&str> =
            rigwright_margins::questions().map(|question| question.title).filter(|title| width(title) > TITLE).collect();
        assert!(long.is_empty(), "{long:?}");
    }

    #[test]
    fn only_what_is_short_stands_out() {
        let strong = |answer: &Answer| cell(answer, System::Field).iter().any(|span| span.style == Style::Strong);
        assert!(strong(&judged(101.0)));
        assert!(!strong(&judged(99.0)) && !strong(&judged(1.0)) && !strong(&Answer::Missing(vec![])));
    }
}
