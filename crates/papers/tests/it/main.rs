//! Tests of the papers from outside.

mod put_in;
mod sheet;
