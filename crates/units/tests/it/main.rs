//! What the crate promises: exact factors, every spelling readable, and what is printed can be read back.

mod factors;
mod printing;
mod reading;
