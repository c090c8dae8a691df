//! The published cases, and that the runner can fail.

mod published;
mod runner;
