//! Checks that compare entries with each other, one file a subject. Each works on what is there and says nothing
//! where something is missing: that has been said already.

use crate::report::Report;
use crate::sheet::Sheet;
use rigwright_physics::trajectory::Path;

/// Runs all checks.
pub(crate) fn all(_sheet: &Sheet, _path: Option<&Path>, _report: &mut Report) {}
