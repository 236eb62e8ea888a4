#!/usr/bin/env bash
# Prints as Markdown what changed in the sets since a commit.
# Usage: compare-sets.sh COMMIT          (SETWRIGHT names the tool)
set -euo pipefail

base=$(git merge-base "$1" HEAD)
work=$(mktemp -d)
before=$work/before
trap 'git worktree remove --force "$before" 2> /dev/null || true; rm -rf "$work"' EXIT

# A folder with everything as it was: sets are read together with the files that they use.
git worktree add --quiet --detach "$before" "$base"

# Where the common parts changed every set may have; otherwise those whose own text did.
if git diff --quiet "$base" HEAD -- parts; then
  git diff -z --name-only --no-renames "$base" HEAD -- 'sets/*.receiver' > "$work/sets"
else
  { git ls-files -z -- 'sets/*.receiver'; git -C "$before" ls-files -z -- 'sets/*.receiver'; } |
    sort -zu > "$work/sets"
fi

while IFS= read -r -d '' set; do
  old=$before/$set
  new=$set
  name=()
  [ -f "$old" ] || old=/dev/null
  # A set that is gone is called by the place that it had.
  [ -f "$new" ] || { new=/dev/null; name=(--as "$set"); }
  said=0
  node "${SETWRIGHT:-tools/setwright/setwright.cjs}" compare "$old" "$new" --format markdown ${name[@]+"${name[@]}"} \
    > "$work/one.md" || said=$?
  # 0: nothing changed that counts; 1: something did; 2: it could not be told.
  if [ "$said" -ne 0 ]; then
    cat "$work/one.md"
    echo
  fi
done < "$work/sets"
