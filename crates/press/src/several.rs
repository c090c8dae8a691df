//! Many papers at once, as many at a time as there are cores; they come back in their order.

use crate::{PressError, Size, Templates, pdf};
use rigwright_papers::paper::Paper;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::thread;

/// Sets papers and hands each over in its order as soon as it and those before it are set: no order of threads shows.
///
/// # Errors
/// The first one of whoever takes the papers; no more are handed over then.
pub fn pdfs<E>(
    papers: &[&Paper],
    size: Size,
    templates: &Templates,
    mut take: impl FnMut(usize, Result<Vec<u8>, PressError>) -> Result<(), E>,
) -> Result<(), E> {
    let cores = thread::available_parallelism().map_or(1, usize::from).min(papers.len());
    let (next, (send, set)) = (AtomicUsize::new(0), mpsc::channel());
    thread::scope(|scope| {
        for _ in 0..cores {
            let (send, next) = (send.clone(), &next);
            scope.spawn(move || {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(paper) = papers.get(index) else { break };
                    // Nobody listens any more once one could not be taken.
                    if send.send((index, pdf(paper, size, templates))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(send);
        let (mut early, mut due) = (BTreeMap::new(), 0);
        for (index, made) in set {
            early.insert(index, made);
            while let Some(made) = early.remove(&due) {
                take(due, made)?;
                due += 1;
            }
        }
        Ok(())
    })
}
