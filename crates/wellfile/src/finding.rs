//! What is wrong with a file: findings with their places, all at once.

use crate::sheet::At;
use crate::source::{Place, Source, steers};
use miette::{Diagnostic, LabeledSpan, SourceCode};
use std::{fmt, sync::Arc};

/// No message is longer than this. [letter]
const LONGEST: usize = 1_000;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The file cannot be used.
    Error,
    /// It can, but somebody should look.
    Caution,
}

/// A place and a few words on it.
#[derive(Clone, Debug)]
pub struct Label {
    /// Where.
    pub place: Place,
    /// What is there; may be empty.
    pub text: String,
}

/// One thing that is wrong, or looks wrong.
#[derive(Clone, Debug)]
pub struct Finding {
    /// Stable name, such as `well::unknown-key`.
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What is wrong: a lower-case phrase.
    pub message: String,
    /// Where; the first is the main one, a second shows the other half of a conflict.
    pub labels: Vec<Label>,
    /// What to write instead.
    pub help: Option<String>,
    /// Labels that stand in another file than the first: shown below with that file's text.
    elsewhere: Vec<Elsewhere>,
}

impl Finding {
    /// An error without a place yet.
    pub(crate) fn error(code: &'static str, message: impl Into<String>) -> Finding {
        Finding {
            code,
            severity: Severity::Error,
            message: fit(message.into()),
            labels: Vec::new(),
            help: None,
            elsewhere: Vec::new(),
        }
    }

    /// A caution without a place yet.
    pub(crate) fn caution(code: &'static str, message: impl Into<String>) -> Finding {
        Finding { severity: Severity::Caution, ..Finding::error(code, message) }
    }

    /// Points to a place.
    pub(crate) fn at(mut self, place: &Place, text: impl Into<String>) -> Finding {
        let label = Label { place: place.first_line(), text: fit(text.into()) };
        match self.labels.first() {
            Some(first) if !Arc::ptr_eq(&first.place.source, &place.source) => self.elsewhere.push(Elsewhere(label.clone())),
            _ => {}
        }
        self.labels.push(label);
        self
    }

    /// Points to an entry, or to the head of its table when the entry is not written.
    pub(crate) fn on(self, table: &At<'_>, key: &str, text: impl Into<String>) -> Finding {
        match table.place(key) {
            Some(place) => self.at(place, text),
            None => self,
        }
    }

    /// Says what to write.
    pub(crate) fn help(mut self, help: impl Into<String>) -> Finding {
        self.help = Some(fit(help.into()));
        self
    }

    fn order(&self, sources: &[Arc<Source>]) -> (usize, usize, &'static str) {
        let Some(Label { place, .. }) = self.labels.first() else { return (0, 0, self.code) };
        let file = sources.iter().position(|source| Arc::ptr_eq(source, &place.source)).unwrap_or(sources.len());
        (file, place.span.start, self.code)
    }
}

/// Makes a text that may repeat what the user wrote fit to print: no page of it, and nothing that steers a terminal.
fn fit(text: String) -> String {
    let text = text.replace(|c| steers(c) && c != '\n', "?");
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}...", &text[..end]),
        None => text,
    }
}

/// Sorts findings by file and place; equal ones keep the order in which they were found.
pub(crate) fn sort(findings: &mut [Finding], sources: &[Arc<Source>]) {
    findings.sort_by(|a, b| a.order(sources).cmp(&b.order(sources)));
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Finding {}

impl Diagnostic for Finding {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.code))
    }

    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.severity {
            Severity::Error => miette::Severity::Error,
            Severity::Caution => miette::Severity::Warning,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.labels.first().map(|label| &*label.place.source as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let first = self.labels.first()?;
        let here = self.labels.iter().filter(move |label| Arc::ptr_eq(&label.place.source, &first.place.source));
        Some(Box::new(here.map(spanned)))
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        if self.elsewhere.is_empty() {
            return None;
        }
        Some(Box::new(self.elsewhere.iter().map(|other| other as &dyn Diagnostic)))
    }
}

fn spanned(label: &Label) -> LabeledSpan {
    let text = (!label.text.is_empty()).then(|| label.text.clone());
    LabeledSpan::new(text, label.place.span.start, label.place.span.len())
}

/// A label in another file.
#[derive(Clone, Debug)]
struct Elsewhere(Label);

impl fmt::Display for Elsewhere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the other half is in {}", self.0.place.source.name)
    }
}

impl std::error::Error for Elsewhere {}

impl Diagnostic for Elsewhere {
    fn severity(&self) -> Option<miette::Severity> {
        Some(miette::Severity::Advice)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&*self.0.place.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(std::iter::once(spanned(&self.0))))
    }
}

/// Everything that was found in the files of one well, sorted by place. Holds at least one error.
#[derive(Clone, Debug)]
pub struct Findings {
    /// Name of the well file as it was given.
    pub file: String,
    /// The findings, cautions among them.
    pub list: Vec<Finding>,
    /// Number of further findings that are not in the list.
    pub more: usize,
}

impl Findings {
    /// Number of findings that stop the work.
    pub fn errors(&self) -> usize {
        self.list.iter().filter(|finding| finding.severity == Severity::Error).count()
    }

    /// Number of findings that do not.
    pub fn cautions(&self) -> usize {
        self.list.len() - self.errors()
    }
}

impl fmt::Display for Findings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let plural = |count: usize| if count == 1 { "" } else { "s" };
        let (errors, cautions) = (self.errors(), self.cautions());
        write!(f, "{} cannot be used: {errors} error{}", self.file, plural(errors))?;
        if cautions > 0 {
            write!(f, " and {cautions} caution{}", plural(cautions))?;
        }
        if self.more > 0 {
            write!(f, "; {} more are not shown", self.more)?;
        }
        Ok(())
    }
}

impl std::error::Error for Findings {}

impl Diagnostic for Findings {
    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        Some(Box::new(self.list.iter().map(|finding| finding as &dyn Diagnostic)))
    }
}
