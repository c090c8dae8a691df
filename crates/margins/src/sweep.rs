//! Situations from a well: on-bottom operations at every hole depth, off-bottom and casing work over bit
//! depth at each section's end.

use crate::geometry;
use rigwright_well::{Fit, Hung, Operation, Situation};

/// Steps this close together are one. [m]
const SAME_DEPTH: f64 = 1e-3;

/// Every situation of the programme, in the order in which the crew meets them.
pub fn situations(fit: &Fit) -> Vec<Situation> {
    (0..fit.well.sections.len()).flat_map(|section| in_section(fit, section)).collect()
}

/// The situations of one section, in order.
pub fn in_section(fit: &Fit, section: usize) -> Vec<Situation> {
    let this = &fit.well.sections[section];
    let mut situations = Vec::new();
    for hole_depth in depths(fit, section, this.top, this.bottom) {
        // At its very top a section has no open hole of its own yet.
        if hole_depth <= this.top + SAME_DEPTH {
            continue;
        }
        for operation in [Operation::Drilling, Operation::Circulating, Operation::Connection, Operation::ShutIn] {
            situations.push(situation(fit, section, operation, hole_depth, hole_depth));
        }
    }
    let over_bit = depths(fit, section, 0.0, this.bottom);
    for &bit_depth in over_bit.iter().rev() {
        situations.push(situation(fit, section, Operation::PullingOut, this.bottom, bit_depth));
    }
    for &bit_depth in &over_bit {
        situations.push(situation(fit, section, Operation::RunningIn, this.bottom, bit_depth));
    }
    if let Some(casing) = &*this.casing {
        for bit_depth in depths(fit, section, 0.0, casing.shoe) {
            situations.push(situation(fit, section, Operation::RunningCasing, this.bottom, bit_depth));
        }
    }
    situations
}

/// The situation at the end of a section with the bit on bottom.
pub fn section_end(fit: &Fit, section: usize) -> Situation {
    let bottom = fit.well.sections[section].bottom;
    situation(fit, section, Operation::Drilling, bottom, bottom)
}

/// One situation with the section's own flow, speeds and back pressure for the operation.
pub fn situation(fit: &Fit, section: usize, operation: Operation, hole_depth: f64, bit_depth: f64) -> Situation {
    let this = &fit.well.sections[section];
    let (flowing, still) = this.managed_pressure.map_or((0.0, 0.0), |managed| (managed.flowing, managed.still));
    let pumping = matches!(operation, Operation::Drilling | Operation::Circulating);
    Situation {
        section,
        operation,
        hung: if operation == Operation::RunningCasing { Hung::Casing } else { Hung::DrillString },
        hole_depth,
        bit_depth,
        flow_rate: if pumping { this.drilling.flow_rate } else { 0.0 },
        booster: if pumping && fit.riser(section).is_some() { this.drilling.booster } else { 0.0 },
        rotary_speed: if pumping { this.drilling.rotary_speed } else { 0.0 },
        pipe_speed: match operation {
            Operation::PullingOut => this.tripping.pulling_speed,
            Operation::RunningIn => this.tripping.running_speed,
            Operation::RunningCasing => this.casing.as_ref().map_or(0.0, |casing| casing.running_speed),
            Operation::Drilling | Operation::Connection | Operation::Circulating | Operation::ShutIn => 0.0,
        },
        heaves: false,
        weight_on_bit: if operation == Operation::Drilling { this.drilling.weight_on_bit } else { 0.0 },
        back_pressure: if pumping { flowing } else { still },
    }
}

/// Measured depths from `top` to `bottom`: stands, both sides of every layer top, shoes, ends of sections,
/// places where a change of string stands at one of these, and survey stations. Ascending.
fn depths(fit: &Fit, section: usize, top: f64, bottom: f64) -> Vec<f64> {
    let stand = fit.rig.mast.stand;
    let stands = (bottom / stand).ceil() as usize;
    let mut all: Vec<f64> = (0..=stands).map(|count| count as f64 * stand).collect();
    all.extend([top, bottom]);
    for layer in layer_tops(fit) {
        all.extend([layer - SAME_DEPTH * 2.0, layer + SAME_DEPTH * 2.0]);
    }
    let shoe = geometry::open_from(fit, section);
    all.push(shoe);
    // The bit depths at which a change of string passes the shoe.
    let mut along = 0.0;
    for part in &fit.well.sections[section].string {
        along += part.length;
        if along.is_finite() {
            all.push(shoe + along);
            all.push(along);
        }
    }
    all.extend(fit.well.path.stations().iter().map(|station| station.depth));
    all.retain(|depth| (top..=bottom).contains(depth));
    all.sort_by(f64::total_cmp);
    all.dedup_by(|next, kept| *next - *kept < SAME_DEPTH);
    all
}

/// Bit depths between which the pressure at every depth of open hole runs straight with the bit depth, while the string or
/// the casing moves or mud is pumped: what is worst over all bit depths is so at one of these. `open` are the depths of open hole
/// that are looked at. Ascending.
pub fn turning_depths(fit: &Fit, section: usize, hung: Hung, open: impl Iterator<Item = f64>) -> Vec<f64> {
    let this = &fit.well.sections[section];
    let (end, lengths) = match (hung, &*this.casing) {
        (Hung::Casing, Some(casing)) => (casing.shoe, vec![0.0, casing.shoe - casing.top]),
        (Hung::Casing, None) => return Vec::new(),
        (Hung::DrillString, _) => {
            let mut along = 0.0;
            let ends = this.string.iter().map(|part| {
                along += part.length;
                along
            });
            (this.bottom, std::iter::once(0.0).chain(ends.filter(|end| end.is_finite())).collect())
        }
    };
    let mut marks: Vec<f64> =
        geometry::hole(fit, section, this.bottom).iter().flat_map(|piece| [piece.top, piece.bottom]).collect();
    marks.extend(open);
    let mut all: Vec<f64> = marks.iter().flat_map(|mark| lengths.iter().map(move |length| mark + length)).collect();
    all.push(end);
    all.retain(|depth| (SAME_DEPTH..=end).contains(depth));
    all.sort_by(f64::total_cmp);
    all.dedup_by(|next, kept| *next - *kept < 0.01);
    all
}

/// Measured depths of the layer tops that the path crosses. [m]
pub fn layer_tops(fit: &Fit) -> impl Iterator<Item = f64> {
    fit.well.formations.iter().skip(1).filter_map(|formation| fit.well.path.measured_depth_at(formation.top))
}
