//! Text in lines of styled spans, and the few ways in which it is laid out: paragraphs, hanging lines, tables.
//!
//! A text knows what is strong or faint, not how that looks: whoever prints it decides. Its plain form loses nothing
//! but the styles.

use std::fmt;
use unicode_width::UnicodeWidthStr;

/// Width that papers are laid out for. [columns]
pub const WIDTH: usize = 100;

/// How much a span should stand out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Style {
    /// Like the rest.
    #[default]
    Plain,
    /// What must not be overlooked: a verdict `short`.
    Strong,
    /// The one accent: bars and the names of the systems.
    Accent,
    /// What stands back: rules, sources.
    Faint,
}

/// A piece of a line in one style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// What it says.
    pub text: String,
    /// How it stands out.
    pub style: Style,
}

impl Span {
    /// A span of a style.
    pub fn new(text: impl Into<String>, style: Style) -> Span {
        Span { text: text.into(), style }
    }
}

impl From<&str> for Span {
    fn from(text: &str) -> Span {
        Span::new(text, Style::Plain)
    }
}

impl From<String> for Span {
    fn from(text: String) -> Span {
        Span::new(text, Style::Plain)
    }
}

/// Lines of styled spans.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text {
    /// The lines, top to bottom.
    pub lines: Vec<Vec<Span>>,
}

/// Where a column's words stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// At its left edge: words.
    Left,
    /// At its right edge: figures.
    Right,
}

impl Text {
    /// Adds a line of spans.
    pub fn line(&mut self, spans: impl IntoIterator<Item = Span>) {
        self.lines.push(spans.into_iter().collect());
    }

    /// Adds a line of one plain span.
    pub fn plain(&mut self, text: impl Into<String>) {
        self.line([Span::from(text.into())]);
    }

    /// Adds an empty line.
    pub fn blank(&mut self) {
        self.line([]);
    }

    /// Adds the name of a part with a thin rule up to the right edge.
    pub fn heading(&mut self, name: &str) {
        if width(name) + 2 > WIDTH {
            return self.paragraph(0, Style::Accent, name);
        }
        let rule = "─".repeat(WIDTH.saturating_sub(width(name) + 1));
        self.line([Span::new(name, Style::Accent), " ".into(), Span::new(rule, Style::Faint)]);
    }

    /// Adds a thin rule over the whole width.
    pub fn rule(&mut self) {
        self.line([Span::new("─".repeat(WIDTH), Style::Faint)]);
    }

    /// Adds a paragraph in one style, broken at spaces, each line indented.
    pub fn paragraph(&mut self, indent: usize, style: Style, text: &str) {
        for line in wrap(text, WIDTH.saturating_sub(indent)) {
            self.line([Span::from(" ".repeat(indent)), Span::new(line, style)]);
        }
    }

    /// Adds a label and a paragraph that hangs beside it from column `indent` on; below it, where the label is too long.
    pub fn hanging(&mut self, indent: usize, label: Span, text: &str) {
        let mut label = Some(label);
        if label.as_ref().is_some_and(|label| width(&label.text) >= indent.max(1)) {
            self.lines.push(label.take().into_iter().collect());
        }
        for line in wrap(text, WIDTH.saturating_sub(indent)) {
            let first = label.take().unwrap_or_else(|| "".into());
            let gap = " ".repeat(indent.saturating_sub(width(&first.text)));
            self.line([first, gap.into(), line.into()]);
        }
    }

    /// Adds rows in columns as wide as their widest cell, two columns of space between them.
    pub fn table(&mut self, indent: usize, columns: &[Align], rows: &[Vec<String>]) {
        let wide = |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| width(cell)).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns.len()).map(wide).collect();
        for row in rows {
            let mut line = " ".repeat(indent);
            for ((cell, wide), align) in row.iter().zip(&widths).zip(columns) {
                line.push_str(&pad(cell, *wide, *align));
                line.push_str("  ");
            }
            line.truncate(line.trim_end().len());
            self.plain(line);
        }
    }

    /// Adds the lines of another text.
    pub fn append(&mut self, other: Text) {
        self.lines.extend(other.lines);
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for line in &self.lines {
            let line: String = line.iter().map(|span| span.text.as_str()).collect();
            writeln!(f, "{}", line.trim_end())?;
        }
        Ok(())
    }
}

/// Width of a text on screen. [columns]
pub fn width(text: &str) -> usize {
    UnicodeWidthStr::width(text)
}

/// A text filled with spaces to a width; a longer one is left as it is.
pub fn pad(text: &str, wide: usize, align: Align) -> String {
    let gap = " ".repeat(wide.saturating_sub(width(text)));
    match align {
        Align::Left => format!("{text}{gap}"),
        Align::Right => format!("{gap}{text}"),
    }
}

/// A text cut to a width, an ellipsis in place of what is lost.
pub fn cut(text: &str, wide: usize) -> String {
    if width(text) <= wide {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        kept.push(letter);
        if width(&kept) + 1 > wide {
            kept.pop();
            break;
        }
    }
    format!("{}…", kept.trim_end())
}

/// A text broken at spaces into lines of at most `wide`; a longer word has a line of its own. Never without a line.
pub fn wrap(text: &str, wide: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let full = lines.last().is_some_and(|line| !line.is_empty() && width(line) + 1 + width(word) > wide);
        if full {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paragraphs_break_at_spaces_and_keep_every_word() {
        let words = "the limit is passed but not by much and the crew may mend it today";
        let lines = wrap(words, 20);
        assert!(lines.iter().all(|line| width(line) <= 20), "{lines:?}");
        assert_eq!(lines.join(" "), words);
        assert_eq!(wrap("", 20), [""]);
        assert_eq!(wrap("a-word-that-is-longer-than-the-line b", 10), ["a-word-that-is-longer-than-the-line", "b"]);
    }

    #[test]
    fn a_cut_name_fits_its_column_in_any_script() {
        assert_eq!(cut("12 1/4 in", 9), "12 1/4 in");
        assert_eq!(cut("intermediate", 9), "intermed…");
        assert_eq!(width(&cut("深い穴の区間", 6)), 5);
        assert_eq!(pad("深い", 6, Align::Right), "  深い");
    }

    #[test]
    fn figures_stand_under_each_other() {
        let mut text = Text::default();
        let rows = [["depth", "load"], ["950 ft", "90 klbf"], ["7,000 ft", "212 klbf"]];
        let rows: Vec<Vec<String>> = rows.iter().map(|row| row.iter().map(|cell| (*cell).to_owned()).collect()).collect();
        text.table(2, &[Align::Right, Align::Right], &rows);
        assert_eq!(text.to_string(), "     depth      load\n    950 ft   90 klbf\n  7,000 ft  212 klbf\n");
    }

    #[test]
    fn a_label_hangs_before_its_paragraph() {
        let mut text = Text::default();
        text.hanging(8, "short".into(), "the limit is passed");
        text.hanging(4, "unknown".into(), "an input is missing");
        assert_eq!(text.to_string(), "short   the limit is passed\nunknown\n    an input is missing\n");
    }
}
