//! The hoisting system: its questions.

use crate::question::System;

/// The system.
pub static SYSTEM: System = System { name: "hoisting", questions: &[], not_yet: &[] };
