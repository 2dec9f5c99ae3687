# --- What would turn the answer -----------------------------------------------------------
# A panel for each thing that is moved: the difference over its values, with its computing
# error; the dashed line is the value of now, a diamond stands where the better one changes.
BODY = phone ? 104 : 118
STRIP = 21
UNDER = 44
GAP = 10
TOP = phone ? 51 : 34
LEFT = 54
#include picture-foot.gp
PANEL = HEAD + STRIP + BODY + UNDER + GAP
HEIGHT = TOP + ROWS * PANEL + FOOT
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set lmargin at screen sx(LEFT)
set rmargin at screen 1 - sx(PAD_PX)
row_top(i) = TOP + (i - 1) * PANEL
page = phone ? 'PHONE' : 'WIDE'
tick(kind, i) = value(sprintf('%s_%s_TICKS_%d', page, kind, i))
axis_text(i) = phone ? PHONE_AXIS[i] : WIDE_AXIS[i]
least(a, b) = a < b ? a : b
most(a, b) = a > b ? a : b
now_px(i) = LEFT + (NOW[i] - X_LOW[i]) / (X_HIGH[i] - X_LOW[i]) * (W - LEFT - PAD_PX)
set multiplot
set label 1 "\342\226\262 ".(phone ? PHONE_LEFT : WIDE_LEFT) at screen sx(PAD_PX), sy(12) left noenhanced font NOTE_FACE tc rgb INK
if (phone) {
    set label 2 "\342\226\274 ".PHONE_RIGHT at screen sx(PAD_PX), sy(29) left noenhanced font NOTE_FACE tc rgb INK
} else {
    set label 2 WIDE_RIGHT." \342\226\274" at screen 1 - sx(PAD_PX), sy(12) right noenhanced font NOTE_FACE tc rgb INK
}
set grid xtics ytics lc rgb GRID lt 1 lw 1
set xtics scale 0 offset 0,0.3 font NOTE_FACE textcolor rgb INK
set ytics scale 0 font NOTE_FACE textcolor rgb INK
do for [i=1:ROWS] {
    set tmargin at screen sy(row_top(i) + HEAD + STRIP)
    set bmargin at screen sy(row_top(i) + HEAD + STRIP + BODY)
    set xrange [X_LOW[i]:X_HIGH[i]]
    set yrange [Y_LOW[i]:Y_HIGH[i]]
    eval 'set xtics ('.tick('X', i).')'
    eval 'set ytics ('.tick('Y', i).')'
    set label 11 name(i) at screen sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) left noenhanced font BOLD tc rgb INK
    if (phone) {
        set label 12 note(i) at screen sx(PAD_PX), sy(row_top(i) + 2.0*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 12 note(i) at screen 1 - sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) right noenhanced font NOTE_FACE tc rgb INK
    }
    set label 13 Y_TEXT at screen sx(PAD_PX), sy(row_top(i) + HEAD + 0.35*STRIP) left noenhanced font NOTE_FACE tc rgb INK
    set label 14 'now' at screen sx(least(most(now_px(i), NOW_FROM_PX), W - PAD_PX - 16)), sy(row_top(i) + HEAD + 0.35*STRIP) center noenhanced font NOTE_FACE tc rgb INK
    set label 15 axis_text(i) at screen sx(LEFT), sy(row_top(i) + HEAD + STRIP + BODY + 31) left noenhanced font NOTE_FACE tc rgb INK
    set arrow 1 from first X_LOW[i], first 0 to first X_HIGH[i], first 0 nohead lc rgb INK lw 1.2
    set arrow 2 from first NOW[i], graph 0 to first NOW[i], graph 1 nohead front dt 2 lc rgb INK lw 1.2
    do for [k=1:TURNS] {
        if (TURN_ROW[k] == i) {
            set arrow 10+k from first TURN_LOW[k], first 0 to first TURN_HIGH[k], first 0 nohead front lc rgb colour(2) lw 5
            set label 100+k '' at first TURN_AT[k], first 0 point pt 13 ps 1.3 lc rgb colour(2) front
        }
    }
    if (i == ROWS) {
        do for [k=1:FOOTS] { set label 200+k foot(k) at screen sx(PAD_PX), sy(foot_y(k)) left noenhanced font NOTE_FACE tc rgb INK }
    }
    plot 'break-even-curves.csv' using ($1==i ? $2 : NaN):4:5 skip 1 with filledcurves fc rgb colour(1) fs solid 0.2 noborder, \
         'break-even-curves.csv' using ($1==i ? $2 : NaN):3 skip 1 with lines lw 2 lc rgb colour(1), \
         '+' using (NOW[i]):(NOW_Y[i]) every ::0::0 with points pt 7 ps 0.9 lc rgb colour(1)
    unset label
    unset arrow
}
unset multiplot
