//! Reads a well and its rig.

use crate::finding::{Finding, Findings, sort};
use crate::provenance::Provenance;
use crate::report::Report;
use crate::sheet::{Sheet, Table};
use crate::source::{Files, LARGEST_FILE, Place, Source, beside, tidy};
use crate::{build, checks, survey, tree, walk};
use rigwright_well::Fit;
use std::sync::Arc;

const NOT_TEXT: &str = "save it as UTF-8 in your editor; a spreadsheet or a word processor file cannot be read";

/// A well and rig that were read, and what is worth knowing about how.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// The checked well and rig.
    pub fit: Fit,
    /// Where each value comes from.
    pub provenance: Provenance,
    /// What does not stop the work but should be looked at.
    pub cautions: Vec<Finding>,
    /// The files: the well, the rig, the survey if there is one.
    pub sources: Vec<Arc<Source>>,
    /// What the rig's file says, with the file; `None` where something was to be said about it.
    rig: Option<(Arc<Source>, Arc<Table>)>,
}

/// Reads the well file `well` and the rig file that it names, or `rig` instead.
///
/// # Errors
/// Everything that is wrong in the files, sorted by place.
pub fn read(well: &str, rig: Option<&str>, files: &dyn Files) -> Result<Loaded, Findings> {
    Reading { files, before: None, report: Report::default(), sources: Vec::new(), rig: None }.read(well, rig)
}

/// The same of a well that was read before, or one like it: a rig's file that says the same is not taken apart again.
///
/// # Errors
/// Those of [`read`].
pub fn read_again(well: &str, files: &dyn Files, before: &Loaded) -> Result<Loaded, Findings> {
    Reading { files, before: Some(before), report: Report::default(), sources: Vec::new(), rig: None }.read(well, None)
}

/// A reading under way.
struct Reading<'a> {
    files: &'a dyn Files,
    before: Option<&'a Loaded>,
    report: Report,
    sources: Vec<Arc<Source>>,
    rig: Option<(Arc<Source>, Arc<Table>)>,
}

impl Reading<'_> {
    fn read(mut self, well: &str, rig: Option<&str>) -> Result<Loaded, Findings> {
        let built = self.load(well, rig);
        let Reading { mut report, sources, rig, .. } = self;
        sort(&mut report.list, &sources);
        let (cautions, failed) = (report.list, report.more > 0);
        match built {
            Some((fit, provenance)) if !failed => Ok(Loaded { fit, provenance, cautions, sources, rig }),
            _ => Err(Findings { file: well.to_owned(), list: cautions, more: report.more }),
        }
    }

    /// What the rig's file says.
    fn rig(&mut self, source: Arc<Source>) -> Arc<Table> {
        let known = self.before.and_then(|before| before.rig.clone()).filter(|(known, _)| *known == source);
        let said = self.report.list.len();
        let read = known.unwrap_or_else(|| {
            let table = walk::file(&source, &tree::RIG, "rig", &mut self.report);
            (source, Arc::new(table))
        });
        let quiet = self.report.list.len() == said && self.report.more == 0 && !self.report.broken;
        self.rig = quiet.then(|| read.clone());
        let (source, table) = read;
        self.sources.push(source);
        table
    }

    fn load(&mut self, well: &str, rig: Option<&str>) -> Option<(Fit, Provenance)> {
        let files = self.files;
        let mut sheet = Sheet::default();
        let source = open(well, None, files, &mut self.report)?;
        self.sources.push(source.clone());
        sheet.well = walk::file(&source, &tree::WELL, "", &mut self.report);
        if let Some(source) = open_rig(well, rig, &sheet, files, &mut self.report) {
            sheet.rig = self.rig(source);
        }
        let report = &mut self.report;
        if let Some(source) = open_survey(well, &sheet, files, report) {
            self.sources.push(source.clone());
            sheet.survey = survey::rows(&source, report);
        }
        let path = build::path(&sheet);
        // With syntax errors, what seems missing may only be unreadable.
        if !report.broken {
            checks::all(&sheet, path.as_ref(), report);
        }
        if report.failed() {
            return None;
        }
        let built = path.and_then(|path| build::fit(&sheet, path));
        if built.is_none() {
            let place = Place { source, span: 0..0 };
            let message = "this file passes every check and still makes no well: that is a fault of this program";
            report.push(Finding::error("well::program-fault", message).at(&place, ""));
        }
        let (fit, assumed) = built?;
        Some((fit, Provenance::new(&sheet, assumed)))
    }
}

fn open_rig(well: &str, rig: Option<&str>, sheet: &Sheet, files: &dyn Files, report: &mut Report) -> Option<Arc<Source>> {
    let root = sheet.well();
    if let Some(rig) = rig {
        return open(rig, None, files, report);
    }
    let Some(named) = root.text("rig") else {
        if let Some(place) = root.head().filter(|_| !root.refused("rig") && !report.broken) {
            let finding = Finding::error("well::no-rig", "no rig is named").at(place, "");
            report.push(finding.help(
                "add `rig = \"rigs/anvil-12.toml\"`, a path from the folder of this file, or name a rig on the command line",
            ));
        }
        return None;
    };
    open(&beside(well, named), root.place("rig"), files, report)
}

fn open_survey(well: &str, sheet: &Sheet, files: &dyn Files, report: &mut Report) -> Option<Arc<Source>> {
    let survey = sheet.well().table("survey")?;
    open(&beside(well, survey.text("file")?), survey.place("file"), files, report)
}

/// Reads a file as text. `named` is where another file names it.
pub(crate) fn open(name: &str, named: Option<&Place>, files: &dyn Files, report: &mut Report) -> Option<Arc<Source>> {
    let shown = tidy(name);
    let refuse = |code: &'static str, message: String, help: &str| {
        let finding = Finding::error(code, message).help(help);
        match named {
            Some(place) => finding.at(place, "named here"),
            None => finding,
        }
    };
    let finding = match files.len(name) {
        Err(error) => refuse(
            "well::no-file",
            format!("`{shown}` cannot be read: {error}"),
            match named {
                Some(_) => "a path is taken from the folder of the file that names it",
                None => "is the name right? it is taken from the folder that you are in",
            },
        ),
        Ok(size) if size > LARGEST_FILE => {
            let message = format!("`{shown}` has {:.1} MB", size as f64 / 1e6);
            refuse("well::too-large-file", message, "files of more than 4 MB are not read; a well fits in a few kB")
        }
        Ok(_) => match files.read(name).map(String::from_utf8) {
            Err(error) => {
                refuse("well::no-file", format!("`{shown}` cannot be read: {error}"), "does this user have the right to read it?")
            }
            Ok(Err(error)) => {
                let at = error.utf8_error().valid_up_to();
                let message = format!("`{shown}` is not text in UTF-8: byte {} does not belong there", at + 1);
                refuse("well::not-text", message, NOT_TEXT)
            }
            // No text holds these; the spreadsheet or word processor file that does may still be valid UTF-8.
            Ok(Ok(text)) if text.contains('\0') => {
                refuse("well::not-text", format!("`{shown}` is not text: it holds null bytes"), NOT_TEXT)
            }
            Ok(Ok(text)) => return Some(Arc::new(Source::new(tidy(name), text))),
        },
    };
    report.push(finding);
    None
}
