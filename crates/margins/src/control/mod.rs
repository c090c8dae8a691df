//! The control system: its questions.

use crate::question::System;

/// The system.
pub static SYSTEM: System = System { name: "control", questions: &[], not_yet: &[] };
