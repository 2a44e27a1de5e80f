/// The name most like `wanted`, if one is like enough to be a slip of the hand.
#[must_use]
pub fn nearest<'a>(wanted: &str, names: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let slip = wanted.chars().count().max(3) / 2;
    let far = |name: &&str| strsim::damerau_levenshtein(wanted, name);
    names.into_iter().min_by_key(far).filter(|name| far(name) <= slip).map(str::to_owned)
}
