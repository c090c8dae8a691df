//! Tests of the limits card: arithmetic by hand, laws, and what nobody knows.

use super::*;
use crate::example;
use jiff::civil::date;

const PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);

fn card(fit: &Fit, section: usize) -> LimitsCard {
    let hole_depth = fit.well.sections[section].bottom;
    limits_card(fit, &Order { section, hole_depth, as_of: Some(date(2026, 11, 11)) }, &mut Off)
}

fn bound<'a>(card: &'a LimitsCard, name: &str) -> &'a Bound {
    card.bounds.iter().find(|bound| bound.name.contains(name)).unwrap()
}

/// By hand: the shoe at 7,190 ft upright is planned to bear 15.2 ppg: (15.2 - 11.5) x 12/231 x 7,190 = 1,381.97 psi over mud of 11.5 ppg.
#[test]
fn published_arithmetic_of_maasp() {
    let fit = example("ostrick");
    let card = card(&fit, 2);
    let still = bound(&card, "shoe").still.unwrap() / PSI;
    assert!((still - (15.2 - 11.5) * 12.0 / 231.0 * 7190.0).abs() < 0.01, "{still}");
    assert_eq!(card.governing().unwrap().name, bound(&card, "shoe").name);
}

#[test]
fn law_friction_takes_from_every_bound_below_surface() {
    let card = card(&example("tolvane"), 2);
    for bound in &card.bounds {
        let (still, pumping) = (bound.still.unwrap(), bound.pumping.unwrap());
        match bound.place {
            crate::Place::Depth(_) => assert!(pumping < still, "{bound:?}"),
            crate::Place::Surface => assert!((pumping - still).abs() < 1e-9, "{bound:?}"),
        }
    }
}

#[test]
fn law_with_mud_above_the_weak_point_the_open_hole_bears_its_maasp() {
    for section in [1, 2] {
        let card = card(&example("ostrick"), section);
        let least =
            card.bounds.iter().filter(|bound| bound.open_hole).filter_map(|bound| bound.still).fold(f64::INFINITY, f64::min);
        let passing = card.passing.as_ref().unwrap();
        for at in passing.instants.iter().filter(|at| ["shut in", "gas comes to the shoe", "all gas out"].contains(&at.what)) {
            assert!((at.open_hole.unwrap() - least).abs() < 1e-3 * PSI, "{at:?} {least}");
        }
        // Gas beside and above the weak point weighs less than mud: the choke may show more.
        assert!(passing.instants.iter().all(|at| at.open_hole.unwrap() > least - 1e-3 * PSI));
    }
}

#[test]
fn law_what_governs_changes_where_both_are_equal() {
    let mut fit = example("ostrick");
    assert_eq!(card(&fit, 2).passing.unwrap().change, None);
    // Between what the open hole bears with the gas below the shoe and with gas at surface.
    let before = card(&fit, 2).passing.unwrap();
    let at = |what: &str| before.instants.iter().find(|at| at.what == what).unwrap().open_hole.unwrap();
    fit.rig.wellhead_rating = Some(0.5 * (at("gas comes to the shoe") + at("gas comes to surface")));
    let passing = card(&fit, 2).passing.unwrap();
    let change = passing.change.unwrap();
    for at in &passing.instants {
        let late = at.pumped > change && at.what != "all gas out";
        assert_eq!(at.open_hole_governs(), Some(!late), "{at:?} {change}");
    }
}

#[test]
fn law_what_nobody_gave_is_unknown_and_never_without_end() {
    let mut fit = example("ostrick");
    fit.rig.choke_hose_rating = None;
    fit.well.sections[1].casing.as_mut().unwrap().leak_off = None;
    let card = card(&fit, 2);
    assert!(card.governing().is_none() && card.least().is_some());
    assert_eq!(bound(&card, "choke hose").source, "rig.choke_manifold.hose_rating");
    assert_eq!(bound(&card, "shoe").source, "section[].casing.leak_off");
    assert!(card.passing.is_none() && card.cautions.iter().any(|caution| caution.text.contains("a limit is unknown")));
}

#[test]
fn before_the_first_casing_nothing_is_shut_in() {
    let card = card(&example("ostrick"), 0);
    assert!(card.shoe.is_none() && card.bounds.is_empty() && card.tolerance.is_empty());
    assert!(card.cautions[0].text.contains("diverted"));
    assert!(!card.fills.is_empty() && !card.speeds.is_empty());
}

#[test]
fn law_tolerance_is_that_of_the_review() {
    let fit = example("ostrick");
    let basis = Basis::new(&fit);
    let at_end = card(&fit, 2).tolerance.pop().unwrap();
    let hole_depth = fit.well.sections[2].bottom;
    let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::ShutIn, hole_depth, hole_depth));
    let ask = |slug: &str| (crate::question(slug).unwrap().ask)(&scene, &mut Off);
    assert_eq!(at_end.drilled, ask("control/kick-tolerance"));
    assert_eq!(at_end.swabbed, ask("control/swabbed-kick"));
}

#[test]
fn law_ages_are_counted_from_the_day_of_the_card() {
    let fresh = card(&example("ostrick"), 2);
    let rest = |what: &str| fresh.rests.iter().find(|rest| rest.what == what).unwrap();
    assert_eq!(rest("slow rate").age, Some(1));
    assert_eq!(rest("mud report").age, Some(16));
    assert!(rest("shoe test").note.contains("a plan"));
    assert!(fresh.stale.is_empty());
    let old = card(&example("ostrick"), 1);
    assert!(old.stale.iter().any(|stale| stale.text.contains("27 days old")));
}

/// 14.0 ppg tested against 11.5 ppg of mud, 0.052 and the vertical depth of the shoe: as a card made by hand says.
#[test]
fn published_trade_constant_gives_the_maasp_of_a_card_by_hand() {
    use crate::kill_sheet::Constants;
    let fit = crate::example("ostrick");
    let order = Order { section: 2, hole_depth: 11_000.0 * 0.3048, as_of: None };
    let by = |constants| limits_card_by(&fit, &order, constants, &mut Off);
    let (trade, exact) = (by(Constants::TRADE), by(Constants::EXACT));
    let test = fit.well.sections[1].casing.as_ref().unwrap().leak_off.unwrap().weight;
    let ppg = 0.453_592_37 / (231.0 * 0.0254 * 0.0254 * 0.0254);
    let shoe = fit.well.path.vertical_depth_at(trade.shoe.unwrap()) / 0.3048;
    let psi = 6_894.757_293;
    let by_hand = (test - fit.well.sections[2].mud.weight) / ppg * 0.052 * shoe;
    assert!((trade.bounds[0].still.unwrap() / psi - by_hand).abs() < 1e-3, "{by_hand}");
    let ratio = trade.bounds[0].still.unwrap() / exact.bounds[0].still.unwrap();
    assert!((ratio - 0.052 * 231.0 / 12.0).abs() < 1e-9);
    // A stand that is pulled lowers the pressure by as much more; kick tolerance stays exact.
    let fall = trade.fills[0].dry.drop / exact.fills[0].dry.drop;
    assert!((fall - 0.052 * 231.0 / 12.0).abs() < 2e-5, "{fall}");
    assert_eq!(trade.tolerance, exact.tolerance);
}

/// Swept over the example wells: each depth of each section. The card is one figure for all gas positions, the question is the shut-in
/// on the design kick; what pressure adds to the column is in both.
#[test]
fn law_the_card_never_stands_above_the_question() {
    let mut same = 0;
    for name in ["ostrick", "quellmere", "tolvane"] {
        let mut fit = example(name);
        for section in &mut fit.well.sections {
            // The card reckons with conventional control.
            section.managed_pressure = None;
        }
        let basis = Basis::new(&fit);
        for (section, this) in fit.well.sections.iter().enumerate() {
            for share in [0.25, 0.5, 1.0] {
                let hole_depth = this.top + share * (this.bottom - this.top);
                let order = Order { section, hole_depth, as_of: None };
                let card = limits_card(&fit, &order, &mut Off);
                let scene = Scene::new(&basis, sweep::situation(&fit, section, Operation::ShutIn, hole_depth, hole_depth));
                let asked = (crate::question("control/annular-pressure").unwrap().ask)(&scene, &mut Off);
                let (Some(judged), Some(least)) = (asked.judged(), card.least().and_then(|bound| bound.still)) else { continue };
                let capacity = judged.limit.capacity;
                assert!(least <= capacity + 1e-6 * capacity.abs(), "{name} {section} {hole_depth}: {least} {capacity}");
                same += usize::from((least - capacity).abs() <= 1e-6 * capacity.abs());
            }
        }
    }
    assert!(same >= 6, "the weakest depth is seldom the same: {same}");
}

/// What pressure adds to the column is taken off the bounds of the rock and of nothing else.
#[test]
fn law_a_column_that_pressure_makes_heavier_leaves_the_shoe_less() {
    let mut fit = example("ostrick");
    let section = fit.well.sections.iter().rposition(|section| section.mud.retort.is_some()).unwrap();
    // No heat but that of the surface: pressure alone acts.
    fit.well.geotherm.gradient = 0.0;
    fit.well.sections[section].drilling.inlet_temperature = None;
    let with = card(&fit, section);
    fit.well.sections[section].mud.retort = None;
    let without = card(&fit, section);
    for (with, without) in with.bounds.iter().zip(&without.bounds) {
        let (a, b) = (with.still.unwrap(), without.still.unwrap());
        if with.open_hole {
            assert!(a < b, "{with:?} {without:?}");
        } else {
            assert!((a - b).abs() <= 1e-9 * b.abs(), "{with:?} {without:?}");
        }
    }
}
