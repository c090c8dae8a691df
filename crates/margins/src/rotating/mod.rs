//! The rotating system: its questions.

use crate::question::System;

/// The system.
pub static SYSTEM: System = System { name: "rotating", questions: &[], not_yet: &[] };
