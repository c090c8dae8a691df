//! The trip sheet and the limits card as their users meet them.

use crate::{changed, code, err, out, run};

fn asked(command: &str, well: &str, more: &[&str]) -> std::process::Output {
    let mut arguments = vec![command, well, "--as-of", "2026-11-11"];
    arguments.extend(more);
    run(&arguments)
}

fn fits(text: &str) {
    let wide: Vec<&str> = text.lines().filter(|line| line.chars().count() > 100).collect();
    assert!(wide.is_empty() && !text.contains("NaN"), "{wide:#?}");
}

#[test]
fn a_trip_sheet_has_a_row_for_every_stand_and_room_to_write() {
    let output = asked("trip-sheet", "examples/ostrick.toml", &[]);
    assert_eq!(code(&output), Some(0), "{}", err(&output));
    let sheet = out(&output);
    fits(&sheet);
    // 11,000 ft in stands of 93 ft: 118 and a piece of one.
    assert_eq!(sheet.lines().filter(|line| line.contains("______")).count(), 119, "{sheet}");
    for words in ["leaves dry", "swab allowance", "trip margin", "30 CFR 250.456", "Planning aid"] {
        assert!(sheet.contains(words), "{words}\n{sheet}");
    }
    for more in [["--way", "in"], ["--way", "casing"], ["--pulled", "wet"], ["--units", "metric"]] {
        let output = asked("trip-sheet", "examples/tolvane.toml", &more);
        assert!(matches!(code(&output), Some(0 | 1)), "{}", err(&output));
        fits(&out(&output));
    }
}

#[test]
fn pulling_too_fast_is_short() {
    let speed = ("pulling_speed = \"8 m/min\"", "pulling_speed = \"80 m/min\"");
    let fast = changed("trip-fast", "tolvane", &[speed]);
    let output = asked("trip-sheet", &fast, &[]);
    assert_eq!(code(&output), Some(1));
    assert!(out(&output).contains("swabs the hole below its limit"), "{}", out(&output));
}

#[test]
fn rejects_trips_that_cannot_be() {
    for (more, words) in [
        (vec!["--way", "in", "--pulled", "dry"], "--pulled"),
        (vec!["--float"], "--float"),
        (vec!["--bit", "12000 ft"], "--bit"),
        (vec!["--section", "6 in"], "no hole section"),
    ] {
        let output = asked("trip-sheet", "examples/ostrick.toml", &more);
        assert_eq!(code(&output), Some(2));
        assert!(err(&output).contains(words), "{}", err(&output));
    }
}

#[test]
fn a_limits_card_names_what_governs_and_how_old_it_is() {
    let output = asked("limits-card", "examples/ostrick.toml", &[]);
    assert_eq!(code(&output), Some(0), "{}", err(&output));
    let card = out(&output);
    fits(&card);
    // By hand: (15.2 - 11.5) x 12/231 x 7,190 = 1,381.97 psi.
    for words in [
        "1381 psi: shoe, by planned leak-off",
        "STALE   12 1/4 in",
        "16 days old",
        "diverted",
        "choke hose",
        "all gas above the shoe",
    ] {
        assert!(card.contains(words), "{words}\n{card}");
    }
    let one = out(&asked("limits-card", "examples/tolvane.toml", &["--section", "3", "--units", "metric"]));
    fits(&one);
    assert!(!one.contains("17 1/2 in"));
}

#[test]
fn an_unknown_rating_is_never_without_end() {
    let none = changed("card-unknown", "ostrick", &[("hose_rating = \"10000 psi\"\n", "")]);
    // A line may break anywhere.
    let card = out(&asked("limits-card", &none, &[])).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        card.contains("wants rig.choke_manifold.hose_rating") && card.contains("others are unknown, not without end"),
        "{card}"
    );
}

#[test]
fn the_same_in_json() {
    for units in ["field", "metric", "canadian"] {
        let output = asked("trip-sheet", "examples/tolvane.toml", &["--json", "--units", units]);
        let sheet: serde_json::Value = serde_json::from_str(&out(&output)).expect("JSON");
        let rows = sheet["rows"].as_array().expect("rows");
        let total = rows.last().and_then(|row| row["volume_so_far"]["value"].as_f64()).expect("a volume");
        assert!((total - sheet["volume"]["value"].as_f64().expect("a volume")).abs() < 1e-9);
        let output = asked("limits-card", "examples/tolvane.toml", &["--json", "--units", units]);
        let cards: serde_json::Value = serde_json::from_str(&out(&output)).expect("JSON");
        assert_eq!(cards["cards"].as_array().map(Vec::len), Some(3));
        assert!(cards["cards"][2]["governs"].is_string());
    }
}
