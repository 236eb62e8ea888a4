# Starts the tool from its picture. build.mjs makes one line of this and puts it at the head of
# dist/setwright.cjs; NODE and PICTURE stand for the node that made the picture and the picture.
case $0 in */*) d=${0%/*};; *) d=.;; esac;
if [ -L "$0" ]; then d=$(readlink -f "$0"); d=${d%/*}; fi;
n=NODE;
# A server runs for long, and then compiling for speed pays at once.
if [ "${1-}" != serve ] && [ -z "${NODE_OPTIONS-}" ] && [ -f PICTURE ] && [ -x "$n" ] && [ ! "$n" -nt PICTURE ]; then
# The tool never calls out, and reading certificates would take longer than all its work.
NODE_EXTRA_CA_CERTS= GLIBC_TUNABLES=glibc.malloc.hugetlb=1
"$n" --interrupt-budget=1000000 --snapshot-blob PICTURE "$d/setwright-main.cjs" "$@";
# 14: Node does not take this picture.
s=$?; [ $s = 14 ] || exit $s;
fi;
exec node "$d/setwright-main.cjs" "$@"
