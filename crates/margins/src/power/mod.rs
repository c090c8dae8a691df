//! The power system: its questions.

use crate::question::System;

/// The system.
pub static SYSTEM: System = System { name: "power", questions: &[], not_yet: &[] };
