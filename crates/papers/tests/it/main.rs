//! Tests of the papers from outside.

mod expression;
mod put_in;
mod sheet;
