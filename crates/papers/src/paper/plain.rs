//! A paper as text, for the terminal.

use super::{Cell, Paper, Part, Table};
use crate::text::Align;
use crate::text::{Span, Style, Text, WIDTH, pad, width, wrap};

/// Width below which a column of words is not squeezed. [columns]
const NARROW: usize = 12;

/// The paper. What the crew fills in is left out: a terminal takes no pencil.
pub fn plain(paper: &Paper) -> Text {
    let mut text = Text::default();
    let head = &paper.head;
    let name = format!("{}: {} on {}", paper.title, head.well, head.rig);
    text.line([Span::new(name, Style::Strong)]);
    text.rule();
    text.paragraph(0, Style::Faint, &format!("as of {}; depths from {}; inputs {}", head.as_of, head.datum, head.fingerprint));
    for reason in &paper.stale {
        text.paragraph(0, Style::Strong, &format!("STALE, not to be used: {reason}"));
    }
    if paper.control {
        text.paragraph(0, Style::Strong, paper.cautions.first().copied().unwrap_or_default());
    }
    if !head.rests_on.is_empty() {
        let rests: Vec<String> = head.rests_on.iter().map(|rest| format!("{} {} ({})", rest.what, rest.date, rest.age)).collect();
        text.paragraph(0, Style::Plain, &format!("rests on {}", rests.join("; ")));
    }
    for notice in &head.notices {
        text.paragraph(0, Style::Plain, &format!("noticed: {notice}"));
    }
    for part in &paper.parts {
        text.blank();
        put(&mut text, part);
    }
    text.blank();
    text.heading("caution");
    for caution in paper.cautions.iter().skip(usize::from(paper.control)) {
        text.paragraph(0, Style::Plain, caution);
    }
    text
}

fn put(text: &mut Text, part: &Part) {
    match part {
        Part::Heading { text: words, level: 1, .. } => text.heading(words),
        Part::Heading { text: words, .. } => text.line([Span::new(words.clone(), Style::Accent)]),
        Part::Text { text: words, strong } => {
            text.paragraph(0, if *strong { Style::Strong } else { Style::Plain }, words);
        }
        Part::Facts { facts } => {
            let rows: Vec<Vec<String>> =
                facts.iter().map(|fact| vec![fact.label.clone(), fact.value.clone(), fact.note.clone()]).collect();
            text.table(0, &[Align::Left, Align::Right, Align::Left], &rows);
        }
        Part::Table(table) if table.form => {
            text.paragraph(0, Style::Faint, &format!("{}: on paper, to be filled in", table.caption));
        }
        Part::Table(table) => put_table(text, table),
        Part::Figure { caption, .. } => text.paragraph(0, Style::Faint, &format!("figure: {caption}")),
        Part::Beside { columns } => {
            for (index, part) in columns.iter().flatten().enumerate() {
                if index > 0 {
                    text.blank();
                }
                put(text, part);
            }
        }
        Part::Signatures { lines } => text.paragraph(0, Style::Faint, &format!("to sign: {}", lines.join(", "))),
    }
}

/// A table whose columns of words share what room the others leave.
fn put_table(text: &mut Text, table: &Table) {
    let wide = |index: usize| {
        let cells = table.rows.iter().filter_map(|row| row.get(index)).map(|cell| width(&cell.text));
        cells.chain([table.columns.get(index).map_or(0, |column| width(&column.head))]).max().unwrap_or(0)
    };
    let mut widths: Vec<usize> = (0..table.columns.len()).map(wide).collect();
    let gaps = 2 * widths.len().saturating_sub(1);
    // The widest column of words gives way first, until the row fits or no column can be narrower.
    while widths.iter().sum::<usize>() + gaps > WIDTH {
        let words = widths.iter_mut().zip(&table.columns).filter(|(wide, column)| !column.number && **wide > NARROW);
        let Some((widest, _)) = words.max_by_key(|(wide, _)| **wide) else { break };
        *widest -= 1;
    }
    text.line([Span::new(table.caption.clone(), Style::Accent)]);
    let heads: Vec<Cell> = table.columns.iter().map(|column| column.head.as_str().into()).collect();
    for (index, row) in std::iter::once(&heads).chain(&table.rows).enumerate() {
        let cells: Vec<Vec<String>> = row.iter().zip(&widths).map(|(cell, wide)| wrap(&cell.text, (*wide).max(1))).collect();
        for line in 0..cells.iter().map(Vec::len).max().unwrap_or(0) {
            let mut spans = Vec::new();
            for (((cell, wide), column), whole) in cells.iter().zip(&widths).zip(&table.columns).zip(row) {
                let align = if column.number { Align::Right } else { Align::Left };
                let words = pad(cell.get(line).map_or("", String::as_str), *wide, align);
                let style = if whole.strong {
                    Style::Strong
                } else if index == 0 {
                    Style::Faint
                } else {
                    Style::Plain
                };
                spans.push(Span::new(words, style));
                spans.push("  ".into());
            }
            spans.pop();
            text.lines.push(spans);
        }
    }
}
