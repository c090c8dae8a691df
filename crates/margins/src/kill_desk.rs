//! The kill sheet of a well that is shut in: readings of the gauges in, weights, pressures, strokes and steps out.
//!
//! Volumes are those of the well file with the bit where it is; the physics is that of the wait-and-weight and
//! driller's methods. No remedy is sought here: a well that is shut in has a procedure.

use crate::circulating::pumps::pump_output;
use crate::{Basis, Scene, geometry, sweep};
use rigwright_physics::control::kill::{Front, Kill, KillData, KillStrokes, PumpingTime};
use rigwright_physics::control::limits::Maasp;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Fit, Operation};
use std::f64::consts::FRAC_PI_4;

/// Steps of the pressure schedule from surface to bit.
const STEPS: usize = 10;

/// What is read at the shut-in well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Readings {
    /// Shut-in drill pipe pressure. [Pa]
    pub drill_pipe_pressure: f64,
    /// Shut-in casing pressure. [Pa]
    pub casing_pressure: f64,
    /// Measured depth of the bit. [m]
    pub bit_depth: f64,
    /// Weight of the mud in the hole. [kg/m³]
    pub mud_weight: f64,
    /// Pump speed of the kill. [1/s]
    pub pump_speed: f64,
    /// Standpipe pressure at that speed, read beforehand with this mud. [Pa]
    pub slow_pressure: f64,
    /// Step of a mud weight that can be mixed and read. [kg/m³]
    pub weight_step: f64,
    /// Acceleration of free fall. [m/s²]
    pub gravity: f64,
}

/// A kill sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct KillSheet {
    /// Weight and pressures.
    pub kill: Kill,
    /// Strokes until the kill mud is at the bit.
    pub to_bit: f64,
    /// Strokes from the bit to the shoe.
    pub to_shoe: f64,
    /// Strokes from the bit to surface.
    pub to_surface: f64,
    /// Time for all of them. [s]
    pub time: f64,
    /// Volume of the string. [m³]
    pub string: f64,
    /// Volume of the annulus. [m³]
    pub annulus: f64,
    /// Most that the casing gauge may show before the circulation begins, with the mud in the hole; where the strength at
    /// the shoe was tested. [Pa]
    pub most_at_casing: Option<f64>,
    /// Strokes pumped and the drill pipe pressure to be held then, down to the bit. [-, Pa]
    pub steps: Vec<(f64, f64)>,
}

/// Why there is no kill sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSheet {
    /// The bit is not in the hole of this section.
    BitElsewhere,
    /// An input that nobody gave.
    Missing(&'static str),
    /// A reading that no gauge shows.
    Reading(&'static str),
}

/// The kill sheet of a section.
///
/// # Errors
/// When a reading cannot be, or when the files do not say enough.
pub fn kill_sheet<R: Recorder>(fit: &Fit, section: usize, readings: &Readings, rec: &mut R) -> Result<KillSheet, NoSheet> {
    let this = fit.well.sections.get(section).ok_or(NoSheet::BitElsewhere)?;
    if !(readings.bit_depth > 0.0 && readings.bit_depth <= this.bottom) {
        return Err(NoSheet::BitElsewhere);
    }
    let whole = |value: f64| value.is_finite() && value >= 0.0;
    if !whole(readings.drill_pipe_pressure) || !whole(readings.casing_pressure) || !whole(readings.slow_pressure) {
        return Err(NoSheet::Reading("a pressure below nought"));
    }
    let positive = |value: f64| value.is_finite() && value > 0.0;
    if !positive(readings.mud_weight) || !positive(readings.pump_speed) || !positive(readings.weight_step) {
        return Err(NoSheet::Reading("a mud weight or pump speed of nought"));
    }
    let basis = Basis::new(fit);
    let hole_depth = readings.bit_depth.max(this.top);
    let scene = Scene::new(&basis, sweep::situation(fit, section, Operation::ShutIn, hole_depth, readings.bit_depth));
    let vertical_depth = scene.vertical_depth(readings.bit_depth);
    let Readings { drill_pipe_pressure, slow_pressure, mud_weight, weight_step, gravity, pump_speed, .. } = *readings;
    let data = KillData { mud_weight, drill_pipe_pressure, slow_pressure, vertical_depth, weight_step, gravity };
    rec.heading("weight and pressures");
    let kill = data.kill(rec);

    rec.heading("volumes and strokes");
    let bore = |diameter: f64| FRAC_PI_4 * diameter * diameter;
    // From surface down, as the kill mud goes: lower end, volume down to there.
    let mut down: Vec<(f64, f64)> = vec![(0.0, 0.0)];
    let mut string = 0.0;
    for piece in scene.string().iter().rev() {
        string += bore(piece.pipe.inner_diameter()) * (piece.bottom - piece.top);
        down.push((piece.bottom, string));
    }
    let shoe = geometry::open_from(fit, section);
    let in_annulus = |from: f64| -> f64 {
        let above_bit =
            scene.annuli().iter().map(|piece| (piece.top.max(from), piece.bottom.min(readings.bit_depth), piece.capacity()));
        above_bit.map(|(top, bottom, capacity)| capacity * (bottom - top).max(0.0)).sum()
    };
    let (annulus, open) = (in_annulus(0.0), in_annulus(shoe));
    rec.given("volume of the string", string, Kind::Volume);
    rec.given("volume of the annulus from bit to shoe", open, Kind::Volume);
    rec.given("volume of the annulus from bit to surface", annulus, Kind::Volume);
    let pump_output = pump_output(&scene, rec).ok_or(NoSheet::Missing("rig.pump.rod"))?;
    let to_bit = rec.take(KillStrokes { volume: string, pump_output });
    let to_shoe = rec.take(KillStrokes { volume: open, pump_output });
    let to_surface = rec.take(KillStrokes { volume: annulus, pump_output });
    let time = rec.take(PumpingTime { strokes: to_bit + to_surface, pump_speed });

    rec.heading("the way down");
    rec.note(|| "Friction is taken to grow with the way of the kill mud along the string (common practice).".into());
    let fronts: Vec<Front> = (0..=STEPS)
        .map(|step| {
            let volume = string * step as f64 / STEPS as f64;
            let depth = if step == STEPS { readings.bit_depth } else { depth_of(&down, volume) };
            let friction_share = (depth / readings.bit_depth).clamp(0.0, 1.0);
            Front { volume, vertical_depth: scene.vertical_depth(depth).min(vertical_depth), friction_share }
        })
        .collect();
    let pressures = data.schedule(rec, kill.kill_weight, &fronts);
    let steps = fronts.iter().zip(pressures).map(|(front, pressure)| (front.volume / pump_output, pressure)).collect();

    let tested = fit.well.casing_above(section).and_then(|casing| Some((casing.shoe, casing.leak_off?.weight)));
    let most_at_casing = tested.map(|(shoe, shoe_weight)| {
        rec.heading("the shoe");
        rec.take(Maasp { shoe_weight, mud_weight, shoe_depth: scene.vertical_depth(shoe), gravity })
    });
    Ok(KillSheet { kill, to_bit, to_shoe, to_surface, time, string, annulus, most_at_casing, steps })
}

/// Measured depth that a volume reaches in the string.
fn depth_of(down: &[(f64, f64)], volume: f64) -> f64 {
    for pair in down.windows(2) {
        let [(top, above), (bottom, below)] = [pair[0], pair[1]];
        if volume <= below && below > above {
            return top + (volume - above) / (below - above) * (bottom - top);
        }
    }
    down.last().map_or(0.0, |(bottom, _)| *bottom)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example;
    use rigwright_physics::{Off, STANDARD_GRAVITY};

    fn readings(fit: &Fit) -> Readings {
        Readings {
            drill_pipe_pressure: 2e6,
            casing_pressure: 3e6,
            bit_depth: fit.well.sections[2].bottom,
            mud_weight: fit.well.sections[2].mud.weight,
            pump_speed: 0.5,
            slow_pressure: 4e6,
            weight_step: 10.0,
            gravity: STANDARD_GRAVITY,
        }
    }

    /// Fluid statics: the kill mud column carries what the old column and the shut-in gauge carried together.
    #[test]
    fn law_the_kill_mud_balances_the_shut_in_pressure() {
        let fit = example("ostrick");
        let readings = readings(&fit);
        let sheet = kill_sheet(&fit, 2, &readings, &mut Off).expect("the readings make a sheet");
        let depth = fit.well.path.vertical_depth_at(readings.bit_depth);
        let old = readings.mud_weight * readings.gravity * depth + readings.drill_pipe_pressure;
        let new = sheet.kill.exact_weight * readings.gravity * depth;
        assert!((old - new).abs() < 1e-6 * old, "{old} {new}");
        // The schedule begins at the initial and ends at the final circulating pressure.
        let ends = [sheet.steps[0].1, sheet.steps[STEPS].1];
        assert!((ends[0] - sheet.kill.initial_pressure).abs() < 1.0 && (ends[1] - sheet.kill.final_pressure).abs() < 1.0);
        assert!((sheet.steps[STEPS].0 - sheet.to_bit).abs() < 1e-6);
        assert!(sheet.to_shoe < sheet.to_surface);
    }

    #[test]
    fn readings_that_cannot_be_are_refused() {
        let fit = example("ostrick");
        let good = readings(&fit);
        let deep = Readings { bit_depth: good.bit_depth + 1.0, ..good };
        assert_eq!(kill_sheet(&fit, 2, &deep, &mut Off), Err(NoSheet::BitElsewhere));
        let negative = Readings { drill_pipe_pressure: -1.0, ..good };
        assert!(matches!(kill_sheet(&fit, 2, &negative, &mut Off), Err(NoSheet::Reading(_))));
        let nothing = Readings { mud_weight: f64::NAN, ..good };
        assert!(matches!(kill_sheet(&fit, 2, &nothing, &mut Off), Err(NoSheet::Reading(_))));
    }
}
