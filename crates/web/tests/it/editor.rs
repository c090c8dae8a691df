//! The text of a file and the form beside it.

use crate::site::{Site, field};
use hyper::StatusCode;

/// The text in the editor, as a browser would send it back.
fn text(page: &str) -> String {
    let from = page.split("<textarea").nth(1).expect("an editor");
    let text = from.split_once('>').expect("it opens").1.split("</textarea>").next().expect("it closes");
    let plain = text.trim_start_matches('\n').replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">");
    plain.replace("&amp;", "&")
}

/// What is said to be found.
fn findings(page: &str) -> &str {
    page.split("id=\"findings\"").nth(1).and_then(|rest| rest.split("</section>").next()).expect("findings")
}

/// What the form makes of the text of a well.
async fn put(site: &Site, what: &str, text: &str, more: &[(&str, &str)]) -> (StatusCode, String) {
    let mut pairs = vec![("well", "ostrick.toml"), ("file", "ostrick.toml"), ("do", what), ("text", text)];
    pairs.extend_from_slice(more);
    let answer = site.post("/put", &pairs).await;
    (answer.status, answer.text)
}

#[tokio::test]
async fn a_field_goes_into_the_text_and_an_emptied_one_out_of_it() {
    let site = Site::new();
    let before = site.file("ostrick.toml");
    let page = site.get("/edit?well=ostrick.toml&subject=section[2].mud").await.text;
    assert_eq!(text(&page), before);
    assert_eq!(field(&page, "if.section[2].mud.weight"), "11.5 ppg");
    let more = [("subject", "section[2].mud"), ("if.section[2].mud.weight", "11.6 ppg"), ("if.section[2].mud.price", "")];
    let (status, page) = put(&site, "fields", &before, &more).await;
    assert_eq!(status, StatusCode::OK);
    let part = |text: &str| text.split("name = \"8 1/2 in\"").nth(1).expect("the section").to_owned();
    let wanted =
        part(&before).replacen("weight = \"11.5 ppg\"", "weight = \"11.6 ppg\"", 1).replacen("price = \"72 per bbl\"\n", "", 1);
    assert_eq!(part(&text(&page)), wanted);
    assert_eq!(site.file("ostrick.toml"), before, "nothing is written");
}

#[tokio::test]
async fn what_is_wrong_is_said_at_its_field() {
    let site = Site::new();
    let wrong = site.file("ostrick.toml").replacen("weight = \"11.5 ppg\"", "weight = \"heavy\"", 1);
    let (status, page) = put(&site, "show", &wrong, &[("subject", "section[2].mud")]).await;
    assert_eq!(status, StatusCode::OK);
    let at = page.find("name=\"if.section[2].mud.weight\"").expect("its field");
    let field = &page[at..page[at..].find("class=\"field").map_or(page.len(), |end| at + end)];
    assert!(field.contains("aria-invalid=\"true\"") && field.contains("heavy"), "{field}");
    // The syntax is broken: the form says so and the text stays.
    let broken = format!("{wrong}\nname = ");
    let (_, page) = put(&site, "fields", &broken, &[]).await;
    assert!(page.contains("mend the text first"));
    assert_eq!(text(&page), broken);
}

#[tokio::test]
async fn a_part_and_a_section_are_added() {
    let site = Site::new();
    let before = site.file("ostrick.toml");
    let more = [("size", "heavy-weight: 5 in, 49.3 lb/ft"), ("where", "2.3"), ("length", "90 ft")];
    let (status, page) = put(&site, "part", &before, &more).await;
    assert_eq!(status, StatusCode::OK);
    assert!(page.contains("he files make a well"), "{}", findings(&page));
    assert_eq!(text(&page).matches("part = \"heavy-weight\"").count(), before.matches("part = \"heavy-weight\"").count() + 1);

    // A slimmer hole below: what does not pass there is found, and the form mends it.
    let more = [("new_name", "6 in"), ("new_bottom", "11800 ft"), ("new_hole", "6 in")];
    let (status, page) = put(&site, "section", &before, &more).await;
    assert_eq!(status, StatusCode::OK);
    let longer = text(&page);
    assert!(longer.contains("# A copy of the section above") && longer.contains("diameter = \"6 in\""));
    assert!(page.contains("the collar does not fit its hole"), "{}", findings(&page));
    let slim = [
        ("if.section[3].string[1].outside", "4 3/4 in"),
        ("if.section[3].string[1].inside", "2 in"),
        ("if.section[3].string[2].outside", "3 1/2 in"),
        ("if.section[3].string[2].joint_outside", "4 3/4 in"),
        ("if.section[3].string[2].inside", "2 1/16 in"),
        ("if.section[3].string[3].joint_outside", "4 3/4 in"),
        ("if.section[3].string[3].joint_inside", "2 11/16 in"),
        ("if.section[3].string[3].outside", "3 1/2 in"),
        ("if.section[3].string[3].inside", "2.764 in"),
    ];
    let (status, page) = put(&site, "fields", &longer, &slim).await;
    assert_eq!(status, StatusCode::OK);
    assert!(page.contains("he files make a well"), "{}", findings(&page));

    for (what, more) in [
        ("section", &[("new_name", "6 in")][..]),
        ("part", &[("size", "a crowbar")]),
        ("part", &[("size", "collar: 6 1/2 in x 2 1/4 in"), ("where", "9.9")]),
    ] {
        let (status, page) = put(&site, what, &before, more).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{what} {more:?}");
        assert!(page.contains("role=\"alert\"") && text(&page) == before, "{what} {more:?}");
    }
}
