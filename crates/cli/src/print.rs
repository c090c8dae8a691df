//! Printing: styled text to the terminal, plain where `NO_COLOR` or a pipe says so.

use anstream::AutoStream;
use anstyle::{AnsiColor, Style};
use rigwright_papers::text::{self, Text};
use std::io::{self, Write};

/// The look of a style: one accent, bold for what must not be overlooked.
const fn look(style: text::Style) -> Style {
    match style {
        text::Style::Plain => Style::new(),
        text::Style::Strong => Style::new().bold(),
        text::Style::Accent => AnsiColor::Blue.on_default(),
        text::Style::Faint => Style::new().dimmed(),
    }
}

/// Prints a text.
pub(crate) fn text(text: &Text) -> io::Result<()> {
    styled(&mut AutoStream::auto(io::stdout().lock()), text)
}

/// Prints a text where errors go.
pub(crate) fn error_text(text: &Text) -> io::Result<()> {
    styled(&mut AutoStream::auto(io::stderr().lock()), text)
}

fn styled(out: &mut impl Write, text: &Text) -> io::Result<()> {
    let mut page = String::new();
    for line in &text.lines {
        let last = line.iter().rposition(|span| !span.text.trim_end().is_empty());
        for (index, span) in line.iter().enumerate().take(last.map_or(0, |last| last + 1)) {
            let words = if Some(index) == last { span.text.trim_end() } else { &span.text };
            let style = look(span.style);
            page.push_str(&format!("{style}{words}{style:#}"));
        }
        page.push('\n');
    }
    out.write_all(page.as_bytes())?;
    out.flush()
}

/// Prints something as it is: JSON, SVG, scripts.
pub(crate) fn raw(text: &[u8]) -> io::Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text)?;
    out.flush()
}

/// Whether errors are printed in colour.
pub(crate) fn errors_have_colour() -> bool {
    AutoStream::choice(&io::stderr()) != anstream::ColorChoice::Never
}

/// Whether results are printed in colour.
pub(crate) fn results_have_colour() -> bool {
    AutoStream::choice(&io::stdout()) != anstream::ColorChoice::Never
}
