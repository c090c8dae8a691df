//! What a string meets along the hole on its way out or in: its load, and the speed that swab or surge leaves.
//!
//! Both depend on the depth of the bit alone, not on the trip: they are worked out a stand apart, once for all trips of a section that
//! go the same way, and taken straight between. What a trip takes is then that of a look at each of its stands to within a
//! thousandth, as long as each has a safe speed (tested in `tests.rs`).

use crate::circulating::slowed;
use crate::fields::drag::surface_tension;
use crate::{Basis, Scene, sweep};
use rigwright_well::Operation;

/// Loads of a string that is lowered are worked out at this many depths more than its first: they only meet the brakes.
const LOWERED: usize = 12;

/// Loads and speeds by depth of the bit or shoe.
pub(super) struct Along {
    /// Ascending, from surface. [m]
    depths: Vec<f64>,
    /// [N]
    loads: Vec<f64>,
    /// No faster than wanted, and nought where no speed is safe; `None` where mud or window is not known. [m/s]
    speeds: Option<Vec<f64>>,
}

impl Along {
    /// For trips of a section.
    pub(super) fn new(basis: &Basis, section: usize, operation: Operation) -> Along {
        let fit = basis.fit;
        let this = &fit.well.sections[section];
        let end = match &*this.casing {
            Some(casing) if operation == Operation::RunningCasing => casing.shoe,
            _ => this.bottom,
        };
        let stand = fit.rig.mast.stand;
        let apart = (0..).map(|count| f64::from(count) * stand).take_while(|depth| *depth < end);
        let depths: Vec<f64> = apart.chain([end]).collect();
        let at = |depth: f64| Scene::new(basis, sweep::situation(fit, section, operation, this.bottom, depth));
        let load = |depth: f64| surface_tension(&at(depth)).max(0.0);
        let loads = if operation == Operation::PullingOut || depths.len() <= LOWERED {
            depths.iter().map(|depth| load(*depth)).collect()
        } else {
            let few: Vec<f64> = (0..=LOWERED).map(|part| end * part as f64 / LOWERED as f64).collect();
            let known: Vec<f64> = few.iter().map(|depth| load(*depth)).collect();
            depths.iter().map(|depth| between(&few, &known, *depth)).collect()
        };
        let scene = at(end);
        let speeds = slowed(&scene, operation, &depths, scene.situation.pipe_speed);
        Along { depths, loads, speeds }
    }

    /// Load of the string. [N]
    pub(super) fn load(&self, depth: f64) -> f64 {
        between(&self.depths, &self.loads, depth)
    }

    /// Speed that swab or surge leaves, nought where none is safe; `None` where that is not known. [m/s]
    pub(super) fn speed(&self, depth: f64) -> Option<f64> {
        let speeds = self.speeds.as_ref()?;
        let (above, share) = place(&self.depths, depth);
        // Beside a depth where none is safe, none is.
        let unsafe_beside = (share < 1.0 && speeds[above] <= 0.0) || (share > 0.0 && speeds[above + 1] <= 0.0);
        Some(if unsafe_beside { 0.0 } else { between(&self.depths, speeds, depth) })
    }
}

/// Between which depths a depth lies, and how far it is from the upper one.
fn place(depths: &[f64], depth: f64) -> (usize, f64) {
    let deeper = depths.partition_point(|known| *known < depth).clamp(1, depths.len() - 1);
    let (upper, lower) = (depths[deeper - 1], depths[deeper]);
    (deeper - 1, ((depth - upper) / (lower - upper)).clamp(0.0, 1.0))
}

/// The value at a depth, straight between those known.
fn between(depths: &[f64], values: &[f64], depth: f64) -> f64 {
    let (above, share) = place(depths, depth);
    values[above] + (values[above + 1] - values[above]) * share
}
