//! The example files read without a word, and mean what they say.

use crate::{Shelf, root};
use rigwright_wellfile::{Disk, read};

const WELLS: [&str; 2] = ["examples/ostrick.toml", "examples/tolvane.toml"];
const RIGS: [&str; 2] = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];

#[test]
fn law_examples_read_without_a_finding() {
    for well in WELLS {
        for rig in RIGS {
            let loaded = read(&root(well), Some(&root(rig)), &Disk)
                .unwrap_or_else(|findings| panic!("{well}: {findings}: {:#?}", findings.list));
            assert!(loaded.cautions.is_empty(), "{well}: {:#?}", loaded.cautions);
        }
        assert!(read(&root(well), None, &Disk).is_ok(), "{well} with its own rig");
    }
}

/// What an example keeps in a comment, for the reader to take out, reads as well.
#[test]
fn law_the_block_in_comment_reads_too() {
    let text = std::fs::read_to_string(root("examples/tolvane.toml")).unwrap();
    let (head, tail) = text.split_at(text.find("# [section.managed_pressure]").unwrap());
    let end = tail.find("\n\n").unwrap();
    let open = format!("{head}{}{}", tail[..end].replace("\n# ", "\n").trim_start_matches("# "), &tail[end..]);
    assert_ne!(text, open);
    let shelf = Shelf::new(&[("examples/tolvane.toml", &open)]);
    let loaded = read("examples/tolvane.toml", None, &shelf).unwrap();
    let pressure = loaded.fit.well.sections[2].managed_pressure.unwrap();
    assert!(pressure.still > pressure.flowing && loaded.cautions.is_empty());
}
