//! Mail addresses in lines that people type: found, never mended.
//!
//! In: a line; out: the address in it. Only the plain form is taken (RFC 5322, 3.2.3: words of letters,
//! digits and a few signs with dots between them), so that nothing typed can become a header of its own.

/// Most letters before and after the `@` (RFC 5321, 4.5.3.1).
const MOST: (usize, usize) = (64, 255);

/// The first mail address in a line; `None` if there is none.
pub fn address_in(line: &str) -> Option<&str> {
    let words = line.split(|c: char| c.is_whitespace() || "<>,;()\"".contains(c));
    let words = words.map(|word| word.trim_start_matches("mailto:").trim_end_matches(['.', ':']));
    words.into_iter().find(|word| is_address(word))
}

fn is_address(word: &str) -> bool {
    let Some((local, domain)) = word.split_once('@') else { return false };
    let is_sign = |c: char| c.is_ascii_alphanumeric() || "!#$%&'*+-/=?^_`{|}~".contains(c);
    let is_local = local.len() <= MOST.0
        && local.split('.').all(|part| !part.is_empty() && part.chars().all(is_sign));
    let is_label = |label: &str| {
        !label.is_empty()
            && !label.starts_with('-')
            && !label.ends_with('-')
            && label.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
    };
    is_local && domain.len() <= MOST.1 && domain.contains('.') && domain.split('.').all(is_label)
}

#[cfg(test)]
mod tests {
    use super::address_in;

    #[test]
    fn an_address_is_found_in_what_people_type_and_nothing_else_is_taken_for_one() {
        for (line, found) in [
            ("post@hollowmere.example", Some("post@hollowmere.example")),
            ("Mail: Post <post@hollowmere.example>, or ring", Some("post@hollowmere.example")),
            ("mailto:a.b+c@d-e.example.", Some("a.b+c@d-e.example")),
            ("01632 960 123", None),
            ("@hollowmere", None),
            ("a@b", None),
            ("a..b@c.example", None),
            ("a@-b.example", None),
            ("a@b@c.example", None),
            ("", None),
        ] {
            assert_eq!(address_in(line), found, "{line}");
        }
        // No address holds a line's end, so none can begin a header.
        assert_eq!(address_in("a@b.example\r\nBcc: c@d.example"), Some("a@b.example"));
    }
}
