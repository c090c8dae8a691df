//! Papers on paper: to PDF by a typesetter that is used as a library, and to workbooks whose cells hold live formulas.
//!
//! Fonts and templates are inside the program; nothing is fetched. A template in the user's folder takes the place of
//! ours. The typesetter takes minutes to compile and comes with the feature `pdf`; without it [`pdf`] says how to get it.

mod chain;
mod several;
mod template;
mod trip_book;
mod workbook;
#[cfg(feature = "pdf")]
mod world;

pub use several::pdfs;
pub use template::{Size, Templates, TemplatesError};
pub use trip_book::trip_book;
pub use workbook::{WORKBOOKS, WorkbookError, desk_book, workbook, working_book};

use rigwright_papers::paper::Paper;

/// Whether papers can be set: the program was built with the typesetter.
pub const TYPESETTER: bool = cfg!(feature = "pdf");

/// How to get PDF where there is no typesetter.
pub const NO_TYPESETTER: &str = "this build has no typesetter: build it with `cargo build --release --features pdf`";

/// Why a paper could not be set.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PressError {
    /// The program was built without the typesetter.
    #[error("{NO_TYPESETTER}")]
    NoTypesetter,
    /// A template cannot be used.
    #[error("{}", .0.first().map_or_else(String::new, ToString::to_string))]
    Template(Vec<TemplateFault>),
}

/// What is wrong with a template, and where.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}:{line}:{column}: {message}")]
pub struct TemplateFault {
    /// The template.
    pub file: String,
    /// Its line, counted from one.
    pub line: usize,
    /// The column, counted from one.
    pub column: usize,
    /// What is wrong.
    pub message: String,
    /// What may help.
    pub hints: Vec<String>,
}

/// A paper as PDF: tagged, with its language and title, the same bytes for the same paper.
///
/// A paper that the trade expects on one page is set smaller, within what can be read, until it fits.
///
/// # Errors
/// When the program has no typesetter, or a template is faulty.
#[cfg_attr(not(feature = "pdf"), allow(unused_variables, reason = "the typesetter would use them"))]
pub fn pdf(paper: &Paper, size: Size, templates: &Templates) -> Result<Vec<u8>, PressError> {
    #[cfg(feature = "pdf")]
    return world::pdf(paper, size, templates);
    #[cfg(not(feature = "pdf"))]
    Err(PressError::NoTypesetter)
}

/// How many sheets a paper takes.
///
/// # Errors
/// As [`pdf`].
#[cfg_attr(not(feature = "pdf"), allow(unused_variables, reason = "the typesetter would use them"))]
pub fn pages(paper: &Paper, size: Size, templates: &Templates) -> Result<usize, PressError> {
    #[cfg(feature = "pdf")]
    return world::pages(paper, size, templates);
    #[cfg(not(feature = "pdf"))]
    Err(PressError::NoTypesetter)
}
