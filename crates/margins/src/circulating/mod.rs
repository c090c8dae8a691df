//! The circulating system: its questions.

use crate::question::System;

/// The system.
pub static SYSTEM: System = System { name: "circulating", questions: &[], not_yet: &[] };
