//! Published worked examples as data, and the runner that holds the program to them.
//!
//! `data/*.toml` says what a source prints; [`check`] computes the same figure with a formula, found by its
//! slug, or with a [`procedure`](procedures) for a march, a fit or a chain, and compares within half of the
//! last printed digit. The tests, the validation report and the examples of the manual all read this crate,
//! so no published figure is written twice. The expectation is never the program's own output.
//! `left-out.toml` lists the worked examples that were gathered and do not run, each with its reason.

mod check;
mod file;
mod given;
mod left_out;
mod printed;

pub mod procedures;

pub use check::{Row, Verdict, check, check_all};
pub use file::{Case, CaseFile, Check, SourceKind, data_folder, load, parse};
pub use given::Given;
pub use left_out::{LeftOut, left_out, parse_left_out};
pub use printed::Printed;
