//! Steps on the example wells, held to arithmetic that a hand can do.

use super::{Block, Cell, Procedure, Refused, Where, method, procedure};
use rigwright_physics::{Line, STANDARD_GRAVITY};
use rigwright_well::{Fit, ManagedPressure};

const PSI: f64 = 6_894.757_293_168_361;
const BBL: f64 = 0.158_987_294_928;
const FOOT: f64 = 0.304_8;
const PPG: f64 = 119.826_427_316_896_63;
const INCH: f64 = 0.0254;

fn make(fit: &Fit, slug: &str, place: Where, typed: &[(&'static str, f64)]) -> Result<Procedure, Refused> {
    procedure(fit, method(slug).unwrap(), place, typed)
}

/// The rows of the table of a title, figures only.
fn rows(procedure: &Procedure, title: &str) -> Vec<Vec<Option<f64>>> {
    let table = procedure.blocks.iter().find_map(|block| match block {
        Block::Table(table) if table.title == title => Some(table),
        _ => None,
    });
    let number = |cell: &Cell| if let Cell::Value(value) = cell { Some(*value) } else { None };
    table.unwrap_or_else(|| panic!("no table {title}")).rows.iter().map(|row| row.iter().map(number).collect()).collect()
}

fn column(rows: &[Vec<Option<f64>>], at: usize) -> Vec<f64> {
    rows.iter().map(|row| row[at].unwrap()).collect()
}

fn figure(procedure: &Procedure, name: &str) -> f64 {
    let found = procedure.blocks.iter().find_map(|block| match block {
        Block::Figure(figure) if figure.name == name => Some(figure.value),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("no figure {name}"))
}

fn warned(procedure: &Procedure, words: &str) -> bool {
    procedure.blocks.iter().any(|block| matches!(block, Block::Warn(said) if said.contains(words)))
}

/// Annulus of 5 in pipe in the casing of the last section of ostrick, per length. [m³/m]
fn casing_annulus() -> f64 {
    std::f64::consts::FRAC_PI_4 * (8.681f64.powi(2) - 5.0f64.powi(2)) * INCH * INCH
}

#[test]
fn law_volumetric_steps_keep_the_bottom_between_margin_and_margin_plus_step() {
    let fit = crate::example("ostrick");
    let typed = [("margin", 100.0 * PSI), ("step", 50.0 * PSI)];
    let made = make(&fit, "volumetric", Where::default(), &typed).unwrap();
    let rows = rows(&made, "volumetric steps");
    assert!(rows.len() > 5, "{}", rows.len());
    let (pressure, out) = (column(&rows, 1), column(&rows, 3));
    assert!(pressure.windows(2).all(|pair| ((pair[1] - pair[0]) / PSI - 50.0).abs() < 1e-6));
    assert!(out.windows(2).all(|pair| pair[1] > pair[0]));
    // The gas rises, and its volume is what came in and what was let out.
    let gain = fit.well.kick.volume.unwrap();
    let (gas, top) = (column(&rows, 4), column(&rows, 5));
    assert!(top.windows(2).all(|pair| pair[1] < pair[0]));
    for (index, volume) in gas.iter().enumerate().skip(1) {
        assert!((volume - gain - out[index - 1]).abs() < 1e-9);
    }
    // Never under what the well had when shut in, nor more than margin and step and what the gas weighs less above collars.
    for row in &rows {
        let over = row[6].unwrap() / PSI;
        assert!(over > 99.0, "{over}");
        if let Some(after) = row[7] {
            assert!(after > 0.0, "{}", after / PSI);
        }
    }
    assert!(!made.working.lines.is_empty());
}

/// Δp C/(MW g) with the annulus in the casing: what a hand finds for the last rows, where gas stands round drill pipe.
#[test]
fn law_volumetric_volume_is_that_of_the_annulus_where_the_gas_is() {
    let fit = crate::example("ostrick");
    let made = make(&fit, "volumetric", Where::default(), &[("step", 100.0 * PSI)]).unwrap();
    let last = rows(&made, "volumetric steps").pop().unwrap();
    let expected = 100.0 * PSI * casing_annulus() / (fit.well.sections[2].mud.weight * STANDARD_GRAVITY);
    assert!((last[2].unwrap() / expected - 1.0).abs() < 1e-6, "{:?} {expected}", last[2]);
}

/// The published step (derived case): 10 bbl of 13 ppg, 1,200 psi, here in 8.681 x 5 in: 0.0488865 bbl/ft exactly.
#[test]
fn law_lubricate_and_bleed_goes_by_volume_and_refuses_the_pressure_form() {
    let fit = crate::example("ostrick");
    let gas = 1500.0 * FOOT * casing_annulus();
    let typed = [("pressure", 1200.0 * PSI), ("gas", gas), ("weight", 13.0 * PPG), ("volume", 10.0 * BBL)];
    let made = make(&fit, "lubricate", Where::default(), &typed).unwrap();
    let rows = rows(&made, "lubricate and bleed");
    let gain = 13.0 * PPG * STANDARD_GRAVITY * 10.0 * BBL / casing_annulus();
    assert!((rows[0][4].unwrap() - (1200.0 * PSI - gain)).abs() < 1.0);
    // A cap of 1,500 ft of 13 ppg would weigh 1,013 psi: less than the gauge, so the pressure form lets out too much.
    assert!(rows[0][7].unwrap() < rows[0][4].unwrap());
    let refused = made.blocks.iter().any(|block| {
        matches!(block, Block::Table(table) if table.rows.iter().any(|row| row.contains(&Cell::Words("refused: too low"))))
    });
    assert!(refused);
    // The cap filled, the gauge keeps the underbalance: 1,200 psi less what the mud put in weighs.
    let pumped = column(&rows, 5).pop().unwrap();
    let left = 1200.0 * PSI - 13.0 * PPG * STANDARD_GRAVITY * pumped / casing_annulus();
    assert!((figure(&made, "casing pressure then") - left).abs() < 1.0);
}

#[test]
fn law_bullheading_begins_at_the_shut_in_casing_pressure_and_ends_with_a_full_column() {
    let fit = crate::example("ostrick");
    let sidpp = 280.0 * PSI;
    let made = make(&fit, "bullhead", Where::default(), &[("sidpp", sidpp), ("gain", 20.0 * BBL)]).unwrap();
    let rows = rows(&made, "limits by volume pumped");
    let (first, last) = (&rows[0], rows.last().unwrap());
    let volumetric = make(&fit, "volumetric", Where::default(), &[("sidpp", sidpp), ("gain", 20.0 * BBL)]).unwrap();
    let sicp = volumetric.used.iter().find(|used| used.key == "sicp").unwrap().value;
    assert!((first[2].unwrap() - sicp).abs() < 0.01 * sicp, "{:?} {sicp}", first[2]);
    // Mud alone from top to bottom leaves the drill pipe pressure.
    assert!((last[2].unwrap() - sidpp).abs() < 1.0);
    assert!(last[6].unwrap().abs() < 1e-12);
}

/// 4.276 x 5 in pipe: the mud let out is steel and bore of what goes in.
#[test]
fn law_stripping_lets_out_the_closed_end_of_the_pipe() {
    let fit = crate::example("ostrick");
    let bit = 9000.0 * FOOT;
    let place = Where { bit_depth: Some(bit), ..Where::default() };
    let made = make(&fit, "strip", place, &[("sicp", 500.0 * PSI)]).unwrap();
    let rows = rows(&made, "stand by stand");
    let pipe = fit.well.sections[2].string.last().unwrap();
    let per_length = pipe.linear_mass / 7850.0 + std::f64::consts::FRAC_PI_4 * pipe.inner_diameter.powi(2);
    let stripped = fit.well.sections[2].bottom - bit;
    assert!((column(&rows, 3).pop().unwrap() / (per_length * stripped) - 1.0).abs() < 2e-3);
    let rise = column(&rows, 4);
    assert!(rise[0].abs() < 1e-6 && rise.windows(2).all(|pair| pair[1] >= pair[0] - 1e-6));
    assert!(*rise.last().unwrap() > 0.0);
}

#[test]
fn law_kill_mud_from_off_bottom_is_heavier_the_higher_the_bit() {
    let fit = crate::example("ostrick");
    let place = Where { bit_depth: Some(6000.0 * FOOT), ..Where::default() };
    let made = make(&fit, "off-bottom", place, &[("sidpp", 300.0 * PSI), ("sicp", 300.0 * PSI)]).unwrap();
    let weights = column(&rows(&made, "the deeper, the lighter"), 2);
    assert!(weights.windows(2).all(|pair| pair[1] < pair[0]));
    // By hand: 300 psi over 6,000 ft and 11,000 ft of 12/231 psi/ft/ppg.
    let mud = fit.well.sections[2].mud.weight / PPG;
    assert!((weights[0] / PPG - mud - 300.0 / (6000.0 * 12.0 / 231.0)).abs() < 1e-6);
    assert!((weights.last().unwrap() / PPG - mud - 300.0 / (11000.0 * 12.0 / 231.0)).abs() < 1e-6);
    assert!(warned(&made, "under the bit"));
}

/// Published: 450 to 650 psi in half an hour with 12.5 ppg is 400 psi/h; the print of 616 ft/h is a slip for 615.4, which the
/// trade's 0.052 gives; exactly 616.0 (drillingformulas.com, actual gas migration rate).
#[test]
fn published_migration_from_the_rise_of_casing_pressure() {
    let mut fit = crate::example("ostrick");
    fit.well.sections[2].mud.weight = 12.5 * PPG;
    let typed = [("sicp", 450.0 * PSI), ("later", 650.0 * PSI), ("after", 1800.0)];
    let made = make(&fit, "migration", Where::default(), &typed).unwrap();
    assert!((figure(&made, "rise of casing pressure in an hour") / PSI - 400.0).abs() < 1e-6);
    let speed = figure(&made, "speed told by the rise, at least") * 3600.0 / FOOT;
    assert!((speed - 400.0 / (12.5 * 12.0 / 231.0)).abs() < 1e-6, "{speed}");
}

#[test]
fn rejects_readings_that_cannot_be() {
    let fit = crate::example("ostrick");
    let off = Where { bit_depth: Some(6000.0 * FOOT), ..Where::default() };
    for (slug, place, typed, words) in [
        ("volumetric", Where::default(), vec![("gain", 400.0)], "larger than the annulus"),
        ("bullhead", Where::default(), vec![("gain", 400.0)], "larger than the annulus"),
        ("lubricate", Where::default(), vec![("pressure", 1e6)], "`gas` is wanting"),
        ("lubricate", Where::default(), vec![("pressure", 1e6), ("gas", 400.0)], "more than the annulus holds"),
        ("strip", Where::default(), vec![], "bit is on bottom"),
        ("off-bottom", Where::default(), vec![("sidpp", 1e6), ("sicp", 1e6)], "bit is on bottom"),
        ("off-bottom", off, vec![("sidpp", 3e6), ("sicp", 1e6)], "heavier than the mud"),
        ("migration", Where::default(), vec![("sicp", 3e6), ("later", 2e6), ("after", 600.0)], "fell"),
        ("managed-pressure", Where::default(), vec![], "without back pressure"),
    ] {
        let refused = make(&fit, slug, place, &typed).expect_err(slug);
        assert!(refused.why.contains(words), "{slug}: {}", refused.why);
        assert!(!refused.help.is_empty(), "{slug}");
    }
}

#[test]
fn law_the_matrix_stands_only_on_the_crews_own_limits() {
    let mut fit = crate::example("tolvane");
    let section = &mut fit.well.sections[2];
    section.mud.weight = 1660.0;
    section.managed_pressure = Some(ManagedPressure { flowing: 3e5, still: 22e5, ..ManagedPressure::default() });
    let made = make(&fit, "managed-pressure", Where::default(), &[]).unwrap();
    assert!(warned(&made, "No matrix") && warned(&made, "mud alone does not hold"));
    let block = fit.well.sections[2].managed_pressure.as_mut().unwrap();
    block.pressure_limit = Some(30e5);
    block.influx_operating = Some(0.1);
    block.influx_planned = Some(0.25);
    let made = make(&fit, "managed-pressure", Where::default(), &[]).unwrap();
    assert!(!warned(&made, "No matrix"));
    let matrix =
        made.blocks.iter().any(|block| matches!(block, Block::Table(table) if table.rows.len() == 4 && table.columns.len() == 4));
    assert!(matrix);
}

/// Every method opens with its working, holds no figure that is not a number, and leaves no line without a kind.
#[test]
fn law_every_figure_is_a_number_and_every_method_shows_its_way() {
    let fit = crate::example("ostrick");
    let off = Where { bit_depth: Some(9000.0 * FOOT), ..Where::default() };
    for (slug, place, typed) in [
        ("volumetric", Where::default(), vec![]),
        ("lubricate", Where::default(), vec![("pressure", 5e6), ("gas", 8.0)]),
        ("bullhead", Where::default(), vec![]),
        ("strip", off, vec![]),
        ("off-bottom", off, vec![("sidpp", 1e6), ("sicp", 1.5e6)]),
        ("migration", Where::default(), vec![("sicp", 2e6), ("later", 2.2e6), ("after", 1200.0)]),
    ] {
        let made = make(&fit, slug, place, &typed).unwrap_or_else(|refused| panic!("{slug}: {}", refused.why));
        assert!(made.working.lines.iter().any(|line| matches!(line, Line::Step { .. })), "{slug}");
        for block in &made.blocks {
            match block {
                Block::Figure(figure) => assert!(figure.value.is_finite(), "{slug}: {}", figure.name),
                Block::Table(table) => {
                    for row in &table.rows {
                        assert_eq!(row.len(), table.columns.len(), "{slug}");
                        for (cell, (name, kind)) in row.iter().zip(&table.columns) {
                            match cell {
                                Cell::Value(value) => assert!(value.is_finite() && kind.is_some(), "{slug}: {name}"),
                                Cell::Words(_) => assert!(kind.is_none(), "{slug}: {name}"),
                                Cell::Blank => {}
                            }
                        }
                    }
                }
                Block::Heading(_) | Block::Say(_) | Block::Warn(_) => {}
            }
        }
        assert!(made.cautions.len() >= 3, "{slug}");
    }
}
