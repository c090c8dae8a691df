//! Tests of the papers from outside.

mod heads;
mod kill_sheet;
mod put_in;
mod sheet;
