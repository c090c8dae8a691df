//! Laws that hold over all formulas or over several at once. What one formula alone must do is tested
//! beside it; what a source prints is in the published cases.

mod every_record;
