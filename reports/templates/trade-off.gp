# --- Ordinary days against bad ones --------------------------------------------------------
# A mark for each setup; a mark that is crossed out is beaten on both counts by another.
KEY_LINE = 1.7 * SIZE
TOP = 12 + ROWS * KEY_LINE * (phone ? 1.9 : 1)
BODY = phone ? 250 : 300
LEFT = 62
#include picture-foot.gp
HEIGHT = TOP + 26 + BODY + 48 + FOOT
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set multiplot
set lmargin at screen sx(LEFT)
set rmargin at screen 1 - sx(PAD_PX)
set tmargin at screen sy(TOP + 26)
set bmargin at screen sy(TOP + 26 + BODY)
key_y(i) = TOP - 6 - (ROWS - i + 0.5) * KEY_LINE * (phone ? 1.9 : 1)
do for [i=1:ROWS] {
    set label 100+i name(i) at screen sx(PAD_PX+24), sy(key_y(i)) left noenhanced font (BOLDED[i] ? BOLD : FACE) tc rgb INK
    if (phone) {
        set label 200+i note(i) at screen sx(PAD_PX+24), sy(key_y(i) + 1.3*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 200+i note(i) at screen 1 - sx(PAD_PX), sy(key_y(i)) right noenhanced font NOTE_FACE tc rgb INK
    }
    set label 300+i '' at screen sx(PAD_PX+8), sy(key_y(i)) point pt MARK[i] ps 1.1 lc rgb colour(STYLE[i])
    if (BEATEN[i]) { set label 400+i '' at screen sx(PAD_PX+8), sy(key_y(i)) point pt 2 ps 1.4 lw 2 lc rgb INK front }
}
do for [k=1:FOOTS] { set label 500+k foot(k) at screen sx(PAD_PX), sy(foot_y(k)) left noenhanced font NOTE_FACE tc rgb INK }
set xrange [X_LOW:X_HIGH]
set yrange [Y_LOW:Y_HIGH]
X_TICKS = phone ? X_PHONE_TICKS : X_WIDE_TICKS
Y_TICKS = phone ? Y_PHONE_TICKS : Y_WIDE_TICKS
set xtics scale 0 offset 0,0.3 font NOTE_FACE textcolor rgb INK
set xtics (@X_TICKS)
set ytics scale 0 font NOTE_FACE textcolor rgb INK
set ytics (@Y_TICKS)
set grid xtics ytics lc rgb GRID lt 1 lw 1
set label 1 'average of the worst 1 day in 20 (finish time)' at screen sx(PAD_PX), sy(TOP + 12) left font NOTE_FACE tc rgb INK
set label 2 'typical day (finish time)' at screen 0.5 + 0.5*(sx(LEFT)-sx(PAD_PX)), sy(TOP + 26 + BODY + 36) center font NOTE_FACE tc rgb INK
FILE = phone ? 'trade-off-marks-phone.csv' : 'trade-off-marks.csv'
# Marks that would hide each other stand side by side, each on a line to its own place.
plot FILE using 2:3:($4-$2):($5-$3) skip 1 with vectors nohead lw 1 lc rgb INK, \
     for [i=1:ROWS] FILE using ($1==ROW[i] ? $4 : NaN):5 skip 1 with points pt MARK[i] ps 1.5 lc rgb colour(STYLE[i]), \
     for [i=1:ROWS] FILE using ($1==ROW[i] && BEATEN[i] ? $4 : NaN):5 skip 1 with points pt 2 ps 1.9 lw 2 lc rgb INK
unset multiplot
