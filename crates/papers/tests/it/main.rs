//! Tests of the papers from outside.

mod kill_sheet;
mod heads;
mod put_in;
mod sheet;
