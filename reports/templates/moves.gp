# --- What moves the result ---------------------------------------------------------------
# A bar for each fact that is not known: the average difference with the fact at the lower
# end of what it could be (open mark) and at the upper end (full mark), all else averaged.
BODY = 18
GAP = 8
TOP = phone ? 51 : 34
#include picture-foot.gp
HEIGHT = TOP + ROWS * (HEAD + BODY + GAP) + 26 + FOOT
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set lmargin at screen sx(PAD_PX)
set rmargin at screen 1 - sx(PAD_PX)
set xrange [NET_LOW:NET_HIGH]
set yrange [-1:1]
unset ytics
row_top(i) = TOP + (i - 1) * (HEAD + BODY + GAP)
NET_TICKS = phone ? NET_PHONE_TICKS : NET_WIDE_TICKS
BARE = phone ? NET_PHONE_TICKS_BARE : NET_WIDE_TICKS_BARE
set xtics scale 0 offset 0,0.2 font NOTE_FACE tc rgb INK
set xtics (@BARE)
set multiplot
set label 1 "\342\227\200 ".(phone ? PHONE_LEFT : WIDE_LEFT) at screen sx(PAD_PX), sy(12) left noenhanced font NOTE_FACE tc rgb INK
set label 2 (phone ? PHONE_RIGHT : WIDE_RIGHT)." \342\226\266" at screen 1 - sx(PAD_PX), sy(phone ? 29 : 12) right noenhanced font NOTE_FACE tc rgb INK
set grid xtics lc rgb GRID lt 1 lw 1
do for [i=1:ROWS] {
    set tmargin at screen sy(row_top(i) + HEAD)
    set bmargin at screen sy(row_top(i) + HEAD + BODY)
    set label 11 name(i) at screen sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) left noenhanced font FACE tc rgb INK
    if (phone) {
        set label 12 note(i) at screen sx(PAD_PX), sy(row_top(i) + 2.0*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 12 note(i) at screen 1 - sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) right noenhanced font NOTE_FACE tc rgb INK
    }
    set object 1 rectangle from first -MATTERS_S, graph 0 to first MATTERS_S, graph 1 fc rgb GRID fs solid 1 noborder behind
    set arrow 1 from first 0, graph 0 to first 0, graph 1 nohead lc rgb INK lw 1.2
    set arrow 2 from first EXPECTED_S, graph 0 to first EXPECTED_S, graph 1 nohead front dt 2 lc rgb INK lw 1
    if (i == ROWS) {
        set xtics (@NET_TICKS)
        do for [k=1:FOOTS] { set label 200+k foot(k) at screen sx(PAD_PX), sy(foot_y(k)) left noenhanced font NOTE_FACE tc rgb INK }
    }
    plot 'moves.csv' using ($1==i ? $2 : NaN):(0):($3-$2):(0) skip 1 with vectors nohead lw 7 lc rgb colour(1), \
         'moves.csv' using ($1==i ? $2 : NaN):(0) skip 1 with points pt 7 ps 1.15 lc rgb colour(1), \
         'moves.csv' using ($1==i ? $2 : NaN):(0) skip 1 with points pt 7 ps 0.75 lc rgb PAPER, \
         'moves.csv' using ($1==i ? $3 : NaN):(0) skip 1 with points pt 7 ps 1.15 lc rgb colour(1)
    unset label
    unset arrow
    unset object
}
unset multiplot
