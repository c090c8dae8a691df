//! A shoe test as it is plotted: volume across, pressure up; what was read, the line through it, where it leaves the line.

use super::{Axis, Band, Figure, Fill, Lie, Mark, Role, Series};
use rigwright_margins::steps::ShoeTested;
use rigwright_units::{Kind, System, unit};

/// Half of a cross, of the largest reading on either axis. [-]
const CROSS: f64 = 0.008;

/// The plot of a shoe test.
pub fn leak_off(tested: &ShoeTested, units: System) -> Figure {
    let volume = |value: f64| unit(Kind::Volume, units).from_si(value);
    let pressure = |value: f64| unit(Kind::Pressure, units).from_si(value);
    let last = tested.record.last().map_or(0.0, |point| volume(point.volume));
    // The sheet is broader than high.
    let (across, up) = (CROSS * last, 2.4 * CROSS * pressure(tested.test.highest));
    // A cross for each reading: its place is its middle, and a photocopy keeps it.
    let cross = |at: f64, value: f64| {
        // No bar reaches below nought, where the axis ends.
        let (across, up) = (across.min(at), up.min(value));
        [vec![(value, at - across), (value, at + across)], vec![(value - up, at), (value + up, at)]]
    };
    let read = tested.record.iter().flat_map(|point| cross(volume(point.volume), pressure(point.pressure))).collect();
    let line = tested.line().map(|(at, value)| (pressure(value), volume(at)));
    // The line of mud alone is drawn as far as the readings go up.
    let alone = tested.alone(1.0).map(|_| vec![(0.0, 0.0), (pressure(tested.test.highest), volume(tested.mud_alone))]);
    let name = |name: &str, role, runs| Series { name: name.to_owned(), role, runs };
    let mut series =
        vec![name("readings, as crosses", Role::Hole, read), name("line of the readings", Role::Flowing, vec![line.to_vec()])];
    series.extend(alone.map(|run| name("mud alone", Role::Pulling, vec![run])));
    let level = |value: f64| vec![(pressure(value), 0.0), (pressure(value), last)];
    let pick = tested.test.pick;
    let bands = pick.map(|pick| Band {
        name: "interval of the pick".to_owned(),
        fill: Fill::Window,
        low: level(pick.pressure),
        high: level(pick.at_most),
    });
    if let Some(pick) = pick {
        series.push(name("leak-off lies between", Role::UpperLimit, vec![level(pick.pressure), level(pick.at_most)]));
    }
    let mark = pick.map(|pick| Mark { label: "last point on the line".to_owned(), at: volume(pick.volume) });
    let note = if pick.is_some() { "leak-off test" } else { "FIT: an integrity test, no fracture pressure" };
    Figure {
        title: "Shoe test".to_owned(),
        note: note.to_owned(),
        values: Axis { label: "pressure at surface".to_owned(), unit: unit(Kind::Pressure, units).symbol.to_owned() },
        along: Axis { label: "volume pumped in all".to_owned(), unit: unit(Kind::Volume, units).symbol.to_owned() },
        lie: Lie::Rightward,
        bands: bands.into_iter().collect(),
        series,
        marks: mark.into_iter().collect(),
        from_zero: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigwright_margins::steps::{PumpIn, shoe_tested};
    use rigwright_wellfile::{Disk, read};

    fn tested(points: usize, bends_after: usize) -> ShoeTested {
        let well = read(&format!("{}/../../examples/ostrick.toml", env!("CARGO_MANIFEST_DIR")), None, &Disk).unwrap();
        let pressure = |at: usize| 1e6 * at.min(bends_after) as f64 + 2e5 * at.saturating_sub(bends_after) as f64;
        let record: Vec<PumpIn> = (1..=points).map(|at| PumpIn { volume: 0.05 * at as f64, pressure: pressure(at) }).collect();
        shoe_tested(&well.fit, 1, &record, None).unwrap()
    }

    /// Every reading stands where it was read, and the line passes below it by what the table says.
    #[test]
    fn law_crosses_stand_at_their_readings() {
        for system in [System::Field, System::Metric, System::Canadian] {
            let tested = tested(12, 8);
            let figure = leak_off(&tested, system);
            let read = &figure.series[0];
            assert_eq!(read.runs.len(), 2 * tested.record.len());
            for (bars, point) in read.runs.chunks(2).zip(&tested.record) {
                let middle = |bar: &[(f64, f64)]| (0.5 * (bar[0].0 + bar[1].0), 0.5 * (bar[0].1 + bar[1].1));
                for bar in bars {
                    let (value, at) = middle(bar);
                    assert!((unit(Kind::Pressure, system).to_si(value) - point.pressure).abs() < 1.0);
                    assert!((unit(Kind::Volume, system).to_si(at) - point.volume).abs() < 1e-9);
                }
            }
            let pick = tested.test.pick.unwrap();
            assert!((unit(Kind::Volume, system).to_si(figure.marks[0].at) - pick.volume).abs() < 1e-9);
            assert!(figure.bands[0].low[0].0 < figure.bands[0].high[0].0);
        }
    }

    #[test]
    fn law_an_integrity_test_has_no_pick() {
        let figure = leak_off(&tested(10, 10), System::Field);
        assert!(figure.bands.is_empty() && figure.marks.is_empty() && figure.note.contains("FIT"), "{}", figure.note);
        assert!(figure.series.iter().all(|series| series.role != Role::UpperLimit));
    }
}
