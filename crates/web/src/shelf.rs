//! Wells that were read and reviewed, kept while their files stay as they are: the same what-if is not worked out twice, and
//! a new one only as far as it differs from the file.

use crate::ask::Case;
use crate::change::{Changes, Edited, edit};
use crate::folder::{Folder, Overlay};
use jiff::Timestamp;
use rigwright_margins::Review;
use rigwright_papers::Subject;
use rigwright_units::System;
use rigwright_wellfile::{Fault, Findings, Loaded, read, read_again};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

/// How many are kept; one takes some hundreds of kB.
const MOST: usize = 64;

/// A well that was read and reviewed.
#[derive(Clone)]
pub(crate) struct Fitted {
    pub(crate) loaded: Arc<Loaded>,
    pub(crate) review: Arc<Review>,
    /// The files that the changes touch.
    pub(crate) edited: Arc<Edited>,
}

impl Fitted {
    /// As the papers want it.
    pub(crate) fn subject<'a>(&'a self, case: &'a Case, units: System, as_of: Timestamp) -> Subject<'a> {
        Subject {
            file: &case.well,
            rig_file: None,
            fit: &self.loaded.fit,
            provenance: &self.loaded.provenance,
            cautions: &self.loaded.cautions,
            review: &self.review,
            as_of,
            units,
        }
    }

    /// Whether every file still says what it said when it was read.
    fn is_fresh(&self, folder: &Folder) -> bool {
        let says = |name: &str, text: &str| folder.text(name).is_ok_and(|now| now == text);
        let changed = |name: &str| Folder::tidy(name).is_ok_and(|name| self.edited.after.contains_key(&name));
        self.edited.before.iter().all(|(name, text)| says(name, text))
            && self.loaded.sources.iter().all(|source| changed(&source.name) || says(&source.name, &source.text))
    }
}

/// Why a well could not be reviewed.
pub(crate) enum Unread {
    /// What is wrong in its files.
    Findings(Box<Findings>),
    /// A change that cannot be made.
    Fault(Fault),
}

struct Kept {
    well: String,
    changes: Changes,
    remedies: bool,
    fitted: Fitted,
}

#[derive(Default)]
pub(crate) struct Shelf {
    kept: Mutex<VecDeque<Kept>>,
}

impl Shelf {
    /// Reads and reviews a case, with remedies if they are wanted.
    pub(crate) fn fitted(&self, folder: &Folder, case: &Case, remedies: bool) -> Result<Fitted, Unread> {
        let mut fitted = match self.find(folder, &case.well, &case.changes) {
            Some((fitted, with)) if with || !remedies => return Ok(fitted),
            Some((fitted, _)) => fitted,
            None => self.made(folder, case)?,
        };
        if remedies {
            fitted.review = Arc::new((*fitted.review).clone().with_remedies(&fitted.loaded.fit));
        }
        self.keep(case, remedies, &fitted);
        Ok(fitted)
    }

    /// Reads a case and reviews it as far as it differs from its files.
    fn made(&self, folder: &Folder, case: &Case) -> Result<Fitted, Unread> {
        let file = self.find(folder, &case.well, &Changes::default()).map(|(file, _)| file);
        let known = file.as_ref().map(|file| &*file.loaded);
        let edited = edit(folder, &case.well, &case.changes, known).map_err(Unread::Fault)?;
        let files = Overlay { folder, texts: &edited.after };
        let loaded = match known {
            Some(known) => read_again(&case.well, &files, known),
            None => read(&case.well, None, &files),
        };
        let loaded = loaded.map_err(|findings| Unread::Findings(Box::new(findings)))?;
        let review = match file {
            Some(file) => Review::again(&loaded.fit, &file.loaded.fit, &file.review),
            None => Review::without_remedies(&loaded.fit),
        };
        Ok(Fitted { loaded: Arc::new(loaded), review: Arc::new(review), edited: Arc::new(edited) })
    }

    /// What is kept of a case, if its files are as they were, and whether remedies are among it.
    fn find(&self, folder: &Folder, well: &str, changes: &Changes) -> Option<(Fitted, bool)> {
        let found = {
            let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
            let found = kept.iter().find(|kept| kept.well == well && kept.changes == *changes)?;
            (found.fitted.clone(), found.remedies)
        };
        found.0.is_fresh(folder).then_some(found)
    }

    fn keep(&self, case: &Case, remedies: bool, fitted: &Fitted) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|kept| kept.well != case.well || kept.changes != case.changes);
        // The files themselves stay longest: every what-if is held against them.
        while kept.len() >= MOST {
            let oldest = kept.iter().rposition(|kept| !kept.changes.is_empty()).unwrap_or(MOST - 1);
            kept.remove(oldest);
        }
        let (well, changes) = (case.well.clone(), case.changes.clone());
        kept.push_front(Kept { well, changes, remedies, fitted: fitted.clone() });
    }
}
