//! The form of the data files. Any key that is not listed here is refused.

use std::fmt;
use std::path::{Path, PathBuf};

use serde::Deserialize;

/// One data file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CaseFile {
    /// Name of the file without folder and ending.
    #[serde(skip)]
    pub name: String,
    /// The cases in order.
    #[serde(rename = "case", default)]
    pub cases: Vec<Case>,
}

/// One worked example of one source.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Kebab case, unique over all files.
    pub id: String,
    /// What is worked out.
    pub what: String,
    /// Where it is printed.
    pub source: String,
    /// How far the source is to be trusted.
    pub kind: SourceKind,
    /// What a reader should know.
    pub note: Option<String>,
    /// The printed figures.
    #[serde(rename = "check")]
    pub checks: Vec<Check>,
}

/// One printed figure.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// Slug of the formula, for a figure that one formula gives.
    pub formula: Option<String>,
    /// Name of the procedure, for a figure at the end of a march, fit or chain.
    pub procedure: Option<String>,
    /// Which output of the procedure.
    pub output: Option<String>,
    /// The inputs, as text with units.
    #[serde(default)]
    pub given: toml::Table,
    /// The figure as printed, with its unit.
    pub printed: String,
    /// Wider or narrower than half of the last printed digit; needs a reason.
    pub tolerance: Option<String>,
    /// Why the tolerance differs.
    pub reason: Option<String>,
    /// The print is known to be wrong: it must not be met, `right` must.
    #[serde(default)]
    pub wrong: bool,
    /// The right value of a wrong print, from outside the program.
    pub right: Option<String>,
}

/// How far a source is to be trusted, the strongest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SourceKind {
    /// A standard or the definition of a unit.
    Standard,
    /// Law or regulation.
    Regulation,
    /// A textbook.
    Textbook,
    /// A paper.
    Paper,
    /// A general scientific library, with its version.
    #[serde(rename = "reference library")]
    ReferenceLibrary,
    /// A note of a school or training site.
    #[serde(rename = "training note")]
    TrainingNote,
    /// Worked out from the stated equations by hand or by an independent program.
    Derived,
    /// What the trade does without a source.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Quoted from memory.
    Memory,
}

impl SourceKind {
    /// Every kind, the strongest first.
    pub const ALL: &'static [SourceKind] = &[
        SourceKind::Standard,
        SourceKind::Regulation,
        SourceKind::Textbook,
        SourceKind::Paper,
        SourceKind::ReferenceLibrary,
        SourceKind::TrainingNote,
        SourceKind::Derived,
        SourceKind::CommonPractice,
        SourceKind::Memory,
    ];

    /// Whether the figure stands in print outside this project.
    pub fn is_published(self) -> bool {
        !matches!(self, SourceKind::Derived | SourceKind::CommonPractice | SourceKind::Memory)
    }
}

impl fmt::Display for SourceKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            SourceKind::Standard => "standard",
            SourceKind::Regulation => "regulation",
            SourceKind::Textbook => "textbook",
            SourceKind::Paper => "paper",
            SourceKind::ReferenceLibrary => "reference library",
            SourceKind::TrainingNote => "training note",
            SourceKind::Derived => "derived",
            SourceKind::CommonPractice => "common practice",
            SourceKind::Memory => "memory",
        })
    }
}

/// Where the data files lie.
pub fn data_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data")
}

/// Reads the text of one data file.
pub fn parse(name: &str, text: &str) -> Result<CaseFile, String> {
    let file: CaseFile = toml::from_str(text).map_err(|error| format!("{name}.toml: {error}"))?;
    Ok(CaseFile { name: name.to_owned(), ..file })
}

/// Reads every data file of a folder, by name; the errors of all unreadable files together.
pub fn load(folder: &Path) -> Result<Vec<CaseFile>, String> {
    let entries = std::fs::read_dir(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut paths: Vec<PathBuf> = entries
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    paths.sort();
    let (mut files, mut errors) = (Vec::new(), Vec::new());
    for path in paths {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()));
        match text.and_then(|text| parse(&name, &text)) {
            Ok(file) => files.push(file),
            Err(error) => errors.push(error),
        }
    }
    if errors.is_empty() { Ok(files) } else { Err(errors.join("\n")) }
}
