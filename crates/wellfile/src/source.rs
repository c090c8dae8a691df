//! Where text comes from: the files of a well, read through a trait so that tests and the page need no disk.

use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use std::{
    fmt, io,
    ops::Range,
    path::{Component, Path, PathBuf},
    sync::Arc,
};

/// Files larger than this are refused before they are read. [byte]
pub const LARGEST_FILE: u64 = 4 << 20;

/// Labels further apart than this are shown in two excerpts. [line]
const MOST_LINES: usize = 12;

/// Reads files. Names are paths as the user gave them, already joined to the folder of the well file where
/// a well file names another.
pub trait Files {
    /// The whole file.
    fn read(&self, name: &str) -> io::Result<Vec<u8>>;
    /// Its size in bytes, without reading it.
    fn len(&self, name: &str) -> io::Result<u64>;
}

/// Files on disk, named from the working folder.
#[derive(Clone, Copy, Debug)]
pub struct Disk;

impl Files for Disk {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        std::fs::read(name)
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        let about = std::fs::metadata(name)?;
        // A folder or a pipe has no size that means anything, and reading a pipe may never end.
        if about.is_file() { Ok(about.len()) } else { Err(io::Error::new(io::ErrorKind::InvalidInput, "not a plain file")) }
    }
}

/// A file's name and text, held once and shared by all that points into it.
#[derive(PartialEq, Eq)]
pub struct Source {
    /// Name for print.
    pub name: String,
    /// The whole text.
    pub text: String,
    /// The text as it is shown, where it holds signs that would steer a terminal; byte for byte as long.
    shown: Option<String>,
    /// Where its lines end: every value of a file is asked for its line.
    line_ends: Vec<usize>,
}

/// Whether a sign steers the terminal or turns the direction of writing, instead of being printed.
pub(crate) fn steers(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

impl Source {
    pub(crate) fn new(name: String, text: String) -> Source {
        let bad = |c: char| steers(c) && !matches!(c, '\n' | '\r' | '\t');
        let (mut line_ends, mut steered) = (Vec::new(), false);
        for (at, byte) in text.bytes().enumerate() {
            match byte {
                b' '..=b'~' => {}
                b'\n' => line_ends.push(at),
                // A sign of several bytes is told where it begins.
                _ => steered |= text.get(at..).is_some_and(|rest| rest.starts_with(bad)),
            }
        }
        let shown = steered.then(|| {
            let mut shown = String::with_capacity(text.len());
            for c in text.chars() {
                if bad(c) { shown.extend(std::iter::repeat_n('?', c.len_utf8())) } else { shown.push(c) }
            }
            shown
        });
        Source { name, text, shown, line_ends }
    }

    /// The line of a byte offset, counted from one.
    pub fn line(&self, offset: usize) -> usize {
        1 + self.line_ends.partition_point(|end| *end < offset)
    }

    /// The text of a span; empty when the span does not fit the text.
    pub fn slice(&self, span: &Range<usize>) -> &str {
        self.text.get(span.clone()).unwrap_or("")
    }
}

impl fmt::Debug for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The text would bury whatever points into it.
        write!(f, "Source({})", self.name)
    }
}

impl SourceCode for Source {
    /// Refuses to show more than a few lines at once: labels further apart then each get their own excerpt.
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let end = span.offset().saturating_add(span.len());
        if self.text.get(span.offset()..end).is_some_and(|text| text.lines().count() > MOST_LINES) {
            return Err(MietteError::OutOfBounds);
        }
        let inner = self.shown.as_ref().unwrap_or(&self.text).as_str().read_span(span, before, after)?;
        Ok(Box::new(MietteSpanContents::new_named(
            self.name.clone(),
            inner.data(),
            *inner.span(),
            inner.line(),
            inner.column(),
            inner.line_count(),
        )))
    }
}

/// A place in a source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The file.
    pub source: Arc<Source>,
    /// Bytes of its text.
    pub span: Range<usize>,
}

impl Place {
    /// The line, counted from one.
    pub fn line(&self) -> usize {
        self.source.line(self.span.start)
    }

    /// The part of it on its first line: a label that runs over many lines hides what it points to.
    pub(crate) fn first_line(&self) -> Place {
        let length = self.source.slice(&self.span).find('\n').unwrap_or(self.span.len());
        Place { source: self.source.clone(), span: self.span.start..self.span.start + length }
    }
}

/// The path of a file that another file names: relative to that file's folder.
pub(crate) fn beside(file: &str, name: &str) -> String {
    match Path::new(file).parent() {
        Some(folder) => folder.join(name).to_string_lossy().into_owned(),
        None => name.to_owned(),
    }
}

/// A path for print: `wells/../rigs/anvil.toml` is `rigs/anvil.toml`.
pub(crate) fn tidy(name: &str) -> String {
    let mut path = PathBuf::new();
    for part in Path::new(name).components() {
        match (part, path.components().next_back()) {
            (Component::CurDir, _) => {}
            (Component::ParentDir, Some(Component::Normal(_))) => {
                path.pop();
            }
            _ => path.push(part),
        }
    }
    path.to_string_lossy().into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_what_steers_is_shown_as_a_question_mark() {
        for c in (0..=0x3000).chain([0xFEFF, 0x1_F600]).filter_map(char::from_u32) {
            let source = Source::new("it.toml".to_owned(), format!("a°\t{c}b\r\n"));
            let steered = steers(c) && !matches!(c, '\n' | '\r' | '\t');
            let shown = steered.then(|| format!("a°\t{}b\r\n", "?".repeat(c.len_utf8())));
            assert_eq!(source.shown, shown, "{c:?}");
        }
    }

    #[test]
    fn law_the_line_of_a_place_is_the_line_breaks_above_it() {
        for text in ["", "\n", "a", "a\nb", "a\r\nb\n\nc\n", "é\n\n\u{a0}"] {
            let source = Source::new("it.toml".to_owned(), text.to_owned());
            for offset in 0..text.len() + 3 {
                let above = text.bytes().take(offset).filter(|byte| *byte == b'\n').count();
                assert_eq!(source.line(offset), above + 1, "{offset} of {text:?}");
            }
        }
    }
}
