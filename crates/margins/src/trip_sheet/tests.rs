//! Tests of the trip sheet: arithmetic by hand, laws, and what is refused.

use super::*;
use crate::example;
use crate::trip_sheet::fill::{ALLOWED_FALL, ALLOWED_STANDS};
use rigwright_physics::Off;

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const BARREL: f64 = 9702.0 * INCH * INCH * INCH;
const PSI: f64 = 0.453_592_37 * 9.806_65 / (INCH * INCH);

fn order(fit: &Fit, section: usize, run: Run) -> Order {
    let this = &fit.well.sections[section];
    let end = match (run, &*this.casing) {
        (Run::Casing { .. }, Some(casing)) => casing.shoe,
        _ => this.bottom,
    };
    Order { section, hole_depth: this.bottom, bit_depth: end, run }
}

fn sheet(fit: &Fit, section: usize, run: Run) -> TripSheet {
    trip_sheet(fit, &order(fit, section, run), &mut Off).unwrap()
}

const DRY: Run = Run::Out { wet: false };
const WET: Run = Run::Out { wet: true };

/// By hand: 21.9 lb/ft over 489.5 lb/ft³ (65.44 ppg) is 0.007968 bbl/ft, 93 ft of it 0.741 bbl. In 8.681 in casing the level
/// falls in 0.04892 + 0.01776 bbl/ft, so by 11.1 ft, and 11.5 ppg by 6.63 psi; wet, 2.393 bbl in 0.04892 bbl/ft are 48.9 ft and 29.2 psi.
#[test]
fn published_arithmetic_of_a_stand() {
    let fit = example("ostrick");
    let sheet = sheet(&fit, 2, DRY);
    let pipe = &sheet.kinds[0];
    let near = |value: f64, by_hand: f64, digit: f64| assert!((value - by_hand).abs() <= 0.5 * digit, "{value} {by_hand}");
    near(pipe.dry.volume / BARREL, 0.741, 0.002); // 489.5 lb/ft³ for 7850 kg/m³ is 0.1 % off
    near(pipe.dry.fall / FOOT, 11.1, 0.1);
    near(pipe.dry.drop / PSI, 6.63, 0.02); // as the volume
    near(pipe.wet.volume / BARREL, 2.393, 0.004);
    near(pipe.wet.fall / FOOT, 48.9, 0.1);
    near(pipe.wet.drop / PSI, 29.2, 0.1);
    assert!((pipe.dry.before - 5.0).abs() < 1e-9 && (pipe.wet.before - 2.0).abs() < 1e-9);
}

#[test]
fn law_the_hole_takes_the_steel_and_wet_the_bore_as_well() {
    for (name, section) in [("ostrick", 1), ("ostrick", 2), ("tolvane", 2)] {
        let fit = example(name);
        let string = crate::geometry::string(&fit, &sweep::section_end(&fit, section));
        let steel: f64 = string.iter().map(|piece| (piece.bottom - piece.top) * piece.pipe.linear_mass() / 7850.0).sum();
        let bore = |inner: f64| std::f64::consts::FRAC_PI_4 * inner * inner;
        let bores: f64 = string.iter().map(|piece| (piece.bottom - piece.top) * bore(piece.pipe.inner_diameter())).sum();
        let [dry, wet] = [DRY, WET].map(|run| sheet(&fit, section, run).total());
        assert!((dry / steel - 1.0).abs() < 1e-3, "{name} {section}: {dry} {steel}");
        assert!(((wet - dry) / bores - 1.0).abs() < 1e-9, "{name} {section}");
        // What comes out comes in again.
        for (run, volume) in [(Run::In { float: false }, dry), (Run::In { float: true }, wet)] {
            assert!((sheet(&fit, section, run).total() / volume - 1.0).abs() < 1e-9, "{name} {section}");
        }
    }
}

#[test]
fn law_rows_go_all_the_way_without_a_gap() {
    let fit = example("tolvane");
    for run in [DRY, WET, Run::In { float: true }, Run::Casing { float: false }] {
        let sheet = sheet(&fit, 2, run);
        let length: f64 = sheet.rows.iter().map(|row| row.length).sum();
        assert!((length - sheet.order.bit_depth).abs() < 1e-6, "{run:?}: {length}");
        let end = if matches!(run, Run::Out { .. }) { 0.0 } else { sheet.order.bit_depth };
        assert!((sheet.rows.last().unwrap().bit_depth - end).abs() < 1e-6);
        let sums = sheet.rows.iter().scan(0.0, |sum, row| {
            *sum += row.volume;
            Some((*sum - row.total).abs())
        });
        assert!(sums.fold(0.0, f64::max) < 1e-9);
        // A liner's joints and the stands that carry it are never in one row.
        assert!(run != Run::Casing { float: false } || sheet.rows.iter().all(|row| !row.what.contains(',')));
    }
}

#[test]
fn law_the_hole_is_filled_before_75_psi_are_gone() {
    for name in ["ostrick", "tolvane"] {
        let fit = example(name);
        for section in 0..3 {
            for fill in sheet(&fit, section, DRY).kinds {
                for way in [fill.dry, fill.wet] {
                    assert!(way.before * way.drop <= ALLOWED_FALL * (1.0 + 1e-12));
                    let five = fill.name.contains("drill") && (way.before - ALLOWED_STANDS).abs() < 1e-9;
                    assert!(five || (way.before + 1.0) * way.drop > ALLOWED_FALL, "{fill:?}");
                }
                assert!(fill.wet.before <= fill.dry.before);
            }
        }
    }
}

#[test]
fn law_pulling_at_the_fastest_speed_leaves_nothing() {
    let mut fit = example("ostrick");
    let fastest = sheet(&fit, 2, DRY).tightest.unwrap().moved.unwrap().fastest;
    fit.well.sections[2].tripping.pulling_speed = fastest;
    let at = sheet(&fit, 2, DRY).tightest.unwrap().moved.unwrap();
    assert!(at.left.abs() < 1e-3 * at.change, "{at:?}");
    fit.well.sections[2].tripping.pulling_speed = 1.01 * fastest;
    let faster = sheet(&fit, 2, DRY);
    assert!(faster.tightest.as_ref().unwrap().moved.unwrap().left < 0.0);
    assert!(faster.cautions.iter().any(|caution| caution.text.contains("swabs the hole below its limit")));
}

#[test]
fn law_the_slug_gives_back_what_it_leaves_dry() {
    let fit = example("ostrick");
    let slug = sheet(&fit, 2, DRY).slug.unwrap();
    let bore = std::f64::consts::FRAC_PI_4 * (4.276 * INCH) * (4.276 * INCH);
    assert!((slug.gain - slug.dry_length * bore).abs() < 1e-9);
    // 25 bbl at 0.01776 bbl/ft stand 1407.5 ft tall; (13.2/11.5 - 1) of that is dry.
    assert!((slug.dry_length / FOOT - 1407.5 * (13.2 / 11.5 - 1.0)).abs() < 0.2, "{}", slug.dry_length / FOOT);
    assert!(sheet(&fit, 2, WET).slug.is_none());
}

#[test]
fn cautions_name_what_is_odd() {
    let mut fit = example("ostrick");
    let says = |fit: &Fit, words: &str| sheet(fit, 2, DRY).cautions.iter().any(|caution| caution.text.contains(words));
    fit.well.sections[2].tripping.slug.as_mut().unwrap().weight = 11.55 / 11.5 * fit.well.sections[2].mud.weight;
    assert!(says(&fit, "less than a stand dry"));
    fit.well.sections[2].tripping.slug = None;
    fit.rig.pits.trip_tank = None;
    assert!(says(&fit, "no slug is given") && says(&fit, "rig.pits.trip_tank"));
    fit.well.margins.trip = 1.0;
    assert!(says(&fit, "more than the trip margin"));
}

#[test]
fn rejects_casing_where_none_is_run() {
    let mut fit = example("ostrick");
    *fit.well.sections[2].casing = None;
    let refused = trip_sheet(&fit, &order(&fit, 2, Run::Casing { float: true }), &mut Off).unwrap_err();
    assert!(refused[0].text.contains("section[].casing"));
}
