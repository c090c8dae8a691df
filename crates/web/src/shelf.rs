//! Reviews that were made, kept by the text that they rest on: the same text is not reviewed twice.

use crate::ask::Case;
use crate::change::{Edited, edit};
use crate::folder::{Folder, Mark, Overlay};
use jiff::Timestamp;
use rigwright_margins::Review;
use rigwright_papers::Subject;
use rigwright_units::System;
use rigwright_wellfile::{Fault, Findings, Loaded, read};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

/// How many reviews are kept; one takes some tens of kB.
const MOST: usize = 64;

/// A well that was read and reviewed.
pub(crate) struct Fitted {
    pub(crate) loaded: Loaded,
    pub(crate) review: Arc<Review>,
    /// The files that the changes touch.
    pub(crate) edited: Edited,
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
}

/// Why a well could not be reviewed.
pub(crate) enum Unread {
    /// What is wrong in its files.
    Findings(Box<Findings>),
    /// A change that cannot be made.
    Fault(Fault),
}

#[derive(Default)]
pub(crate) struct Shelf {
    kept: Mutex<VecDeque<(Mark, bool, Arc<Review>)>>,
}

impl Shelf {
    /// Reads and reviews a case, with remedies if they are wanted.
    pub(crate) fn fitted(&self, folder: &Folder, case: &Case, remedies: bool) -> Result<Fitted, Unread> {
        let edited = edit(folder, &case.well, &case.changes).map_err(Unread::Fault)?;
        let files = Overlay { folder, texts: &edited.after };
        let loaded = read(&case.well, None, &files).map_err(|findings| Unread::Findings(Box::new(findings)))?;
        let mut all = Vec::new();
        for source in &loaded.sources {
            for part in [&source.name, &source.text] {
                all.extend_from_slice(&(part.len() as u64).to_le_bytes());
                all.extend_from_slice(part.as_bytes());
            }
        }
        let mark = Mark::of(&all);
        if let Some(review) = self.find(&mark, remedies) {
            return Ok(Fitted { loaded, review, edited });
        }
        let review = Arc::new(if remedies { Review::new(&loaded.fit) } else { Review::without_remedies(&loaded.fit) });
        self.keep(mark, remedies, review.clone());
        Ok(Fitted { loaded, review, edited })
    }

    fn find(&self, mark: &Mark, remedies: bool) -> Option<Arc<Review>> {
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let fits = |(known, with, _): &&(Mark, bool, Arc<Review>)| known == mark && (*with || !remedies);
        kept.iter().find(fits).map(|(_, _, review)| review.clone())
    }

    fn keep(&self, mark: Mark, remedies: bool, review: Arc<Review>) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|(known, _, _)| *known != mark);
        kept.truncate(MOST - 1);
        kept.push_front((mark, remedies, review));
    }
}
