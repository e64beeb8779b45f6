//! How names stand in the sentences of a language: articles and cases by the class of a name, and words
//! that agree with it.
//!
//! In: `grammar.yaml`; out: clauses with a name filled in. Which things are named is `facts::naming`.

use std::collections::BTreeMap;

use serde::Deserialize;

/// The key of the class of a name.
pub const CLASS: &str = "class";

/// The grammar of one language.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Grammar {
    /// Classes of names (gender, number); those that agree like no other are in the order of the choices
    /// of a word that agrees.
    classes: Vec<String>,
    /// Classes that agree like another: names that an article is shortened before.
    #[serde(default)]
    agree_like: BTreeMap<String, String>,
    /// Those of the classes that are several things; of two choices they take the second.
    plural: Vec<String>,
    /// The class of a list of different things.
    several: String,
    /// The class of a part that the sheet calls by a name of its own, and how that name is introduced.
    own: OwnName,
    /// The form that `{part}` stands for; another is asked for as `{part:FORM}`.
    form: String,
    /// A name in each form: by its class, and as one of several kinds of lists.
    forms: BTreeMap<String, BTreeMap<String, String>>,
    /// Forms that take the words of another one: prepositions that melt into an article.
    #[serde(default)]
    words_of: BTreeMap<String, String>,
    /// The colon between a name and what is said of it, with the spaces that the language sets.
    colon: String,
    /// True if a text may begin in lower case after a colon.
    pub lower_after_colon: bool,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnName {
    class: String,
    name: String,
}

impl Grammar {
    /// The class of the first kind of names, of which a name is that states none.
    pub fn first_class(&self) -> &str {
        self.classes.first().map_or("", String::as_str)
    }

    /// The colon between a name and what is said of it.
    pub fn colon(&self) -> &str {
        &self.colon
    }

    /// What a name can be.
    pub fn classes(&self) -> &[String] {
        &self.classes
    }

    /// The class of a list of different things.
    pub fn several(&self) -> &str {
        &self.several
    }

    /// The class of a name that the sheet gives, and the name as it stands in a sentence.
    pub fn own_name(&self, name: &str) -> (&str, String) {
        (&self.own.class, self.own.name.replace("{name}", name))
    }

    /// The form that `{part}` alone stands for.
    pub fn form(&self) -> &str {
        &self.form
    }

    /// The names of all forms.
    pub fn forms(&self) -> impl Iterator<Item = &str> {
        self.forms.keys().map(String::as_str)
    }

    /// The form whose words a form takes: itself, or another.
    pub fn words_of<'a>(&'a self, form: &'a str) -> &'a str {
        self.words_of.get(form).map_or(form, String::as_str)
    }

    /// The pattern of a class or a kind of list in a form.
    pub fn pattern(&self, form: &str, which: &str) -> &str {
        let of = |form: &str| self.forms.get(form).and_then(|all| all.get(which));
        of(form).or_else(|| of(&self.form)).map_or("{name}", String::as_str)
    }

    /// The pattern of the two of a pair whose plural has this class.
    pub fn pattern_of_both(&self, form: &str, class: &str) -> &str {
        let own = key("both", class);
        let has_own = self.forms.values().any(|patterns| patterns.contains_key(&own));
        self.pattern(form, if has_own { &own } else { "both" })
    }

    /// A clause with the name of a thing in the forms that it asks for, and with the words chosen that
    /// agree with the class of that name.
    ///
    /// `{part}` and `{part:FORM}` are the name; `{was|were}` is a word for one and for several, and with
    /// as many choices as there are classes one for each. Other braces stay.
    pub fn clause(&self, clause: &str, class: &str, name: impl Fn(&str) -> String) -> String {
        let mut filled = String::with_capacity(clause.len());
        let mut rest = clause;
        while let Some((before, after)) = rest.split_once('{') {
            filled.push_str(before);
            let Some((inner, after_it)) = after.split_once('}') else {
                filled.push('{');
                rest = after;
                continue;
            };
            match (inner, inner.strip_prefix("part:")) {
                ("part", _) => filled.push_str(&name(&self.form)),
                (_, Some(form)) => filled.push_str(&name(form)),
                _ if inner.contains('|') => filled.push_str(self.agreeing(inner, class)),
                _ => {
                    filled.push('{');
                    rest = after;
                    continue;
                }
            }
            rest = after_it;
        }
        filled + rest
    }

    /// Classes that have choices of their own.
    fn agreeing_classes(&self) -> impl Iterator<Item = &String> {
        self.classes.iter().filter(|class| !self.agree_like.contains_key(*class))
    }

    fn agreeing<'c>(&self, choices: &'c str, class: &str) -> &'c str {
        let class = self.agree_like.get(class).map_or(class, String::as_str);
        let choices: Vec<&str> = choices.split('|').collect();
        let at = match choices.len() == self.agreeing_classes().count() {
            true => self.agreeing_classes().position(|own| own == class),
            false => Some(usize::from(self.plural.iter().any(|own| own == class))),
        };
        at.and_then(|at| choices.get(at)).or(choices.first()).copied().unwrap_or_default()
    }

    /// What in a clause no name can be filled into: a form that there is none of, or choices that are
    /// neither two nor one for each class.
    pub fn faults<'c>(&self, clause: &'c str) -> Vec<&'c str> {
        let inner = clause.split('{').skip(1).filter_map(|part| part.split_once('}'));
        let is_fault = |inner: &&str| match inner.strip_prefix("part:") {
            Some(form) => !self.forms.contains_key(form),
            None => {
                let n = inner.split('|').count();
                1 < n && n != 2 && n != self.agreeing_classes().count()
            }
        };
        inner.map(|(inner, _)| inner).filter(is_fault).collect()
    }
}

/// True if a clause names the thing that it is about.
pub fn names_part(clause: &str) -> bool {
    clause.contains("{part}") || clause.contains("{part:")
}

/// True if a clause begins with the thing that it is about.
pub fn begins_with_part(clause: &str) -> bool {
    clause.starts_with("{part}") || clause.starts_with("{part:")
}

/// The name in braces of a text without the form that it is asked for in; `None` for choices.
pub fn gap(inner: &str) -> Option<&str> {
    (!inner.contains('|')).then(|| inner.split(':').next().unwrap_or(inner))
}

/// The key of words in a form: `kinds-dat`.
pub fn key(which: &str, form: &str) -> String {
    format!("{which}-{form}")
}

/// The key of the class of words: `class` of a part, `kinds-class` of its plural.
pub fn class_key(which: Option<&str>) -> String {
    which.map_or_else(|| CLASS.to_owned(), |which| key(which, CLASS))
}
