//! The published cases, and that the runner can fail.

mod left_out;
mod published;
mod runner;
