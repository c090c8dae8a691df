//! Tests only: the rules of the house that no compiler checks. See `tests/it`: the order of the crates, the
//! map in `ARCHITECTURE.md`, the length and opening of files, and that every formula is listed and checked.
