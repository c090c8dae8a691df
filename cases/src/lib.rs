//! Published worked examples as data, and the runner that holds the program to them.
//!
//! `data/*.toml` says what a source prints; [`check`] computes the same figure with a formula, found by its
//! slug, or with a [`procedure`](procedures) for a march, a fit or a chain, and compares within half of the
//! last printed digit. The tests, the validation report and the examples of the manual all read this crate,
//! so no published figure is written twice. The expectation is never the program's own output.

mod check;
mod file;
mod given;
mod printed;

pub mod procedures;

pub use check::{Row, Verdict, check, check_all};
pub use file::{Case, CaseFile, Check, SourceKind, data_folder, load, parse};
pub use given::Given;
pub use printed::Printed;
