# --- Tyre pressure from the pump to the finish ---------------------------------------------
# A panel for each setup: front and rear on a typical day, bars for 9 days in 10 at the start
# and at the finish, lines for what tyre and rim may hold.
BODY = 128
UNDER = 24
GAP = 8
TOP = 30
LEFT = 50
RIGHT = 84
#include picture-foot.gp
PANEL = HEAD + BODY + UNDER + GAP
HEIGHT = TOP + ROWS * PANEL + FOOT
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set lmargin at screen sx(LEFT)
set rmargin at screen 1 - sx(RIGHT)
row_top(i) = TOP + (i - 1) * PANEL
page = phone ? 'PHONE' : 'WIDE'
set xrange [CLOCK_LOW:CLOCK_HIGH]
set yrange [PSI_LOW:PSI_HIGH]
PX_S = (CLOCK_HIGH - CLOCK_LOW) / (W - LEFT - RIGHT)
set multiplot
X_TICKS = phone ? PHONE_CLOCK_TICKS : WIDE_CLOCK_TICKS
set xtics scale 0 offset 0,0.3 font NOTE_FACE textcolor rgb INK
set xtics (@X_TICKS)
set ytics scale 0 font NOTE_FACE textcolor rgb INK
set ytics (@PSI_TICKS)
set grid xtics ytics lc rgb GRID lt 1 lw 1
set label 1 'psi, by the time of day' at screen sx(PAD_PX), sy(12) left noenhanced font NOTE_FACE tc rgb INK
do for [i=1:ROWS] {
    set tmargin at screen sy(row_top(i) + HEAD)
    set bmargin at screen sy(row_top(i) + HEAD + BODY)
    set label 11 name(i) at screen sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) left noenhanced font BOLD tc rgb INK
    if (phone) {
        set label 12 note(i) at screen sx(PAD_PX), sy(row_top(i) + 2.0*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 12 note(i) at screen 1 - sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) right noenhanced font NOTE_FACE tc rgb INK
    }
    set arrow 1 from first START, first (LEAST_PSI[i] > 0 ? LEAST_PSI[i] : PSI_LOW) to first START, first (MOST_PSI[i] > 0 ? MOST_PSI[i] : PSI_HIGH) nohead back dt 2 lc rgb INK lw 1.2
    set label 13 FRONT_TEXT[i] at screen 1 - sx(RIGHT - 12), sy(row_top(i) + HEAD + BODY * (PSI_HIGH - FRONT_PSI[i]) / (PSI_HIGH - PSI_LOW) + FRONT_MOVED_PX[i]) left noenhanced font NOTE_FACE tc rgb INK
    set label 14 REAR_TEXT[i] at screen 1 - sx(RIGHT - 12), sy(row_top(i) + HEAD + BODY * (PSI_HIGH - REAR_PSI[i]) / (PSI_HIGH - PSI_LOW) + REAR_MOVED_PX[i]) left noenhanced font NOTE_FACE tc rgb INK
    if (MOST_PSI[i] > 0) {
        set arrow 2 from graph 0, first MOST_PSI[i] to graph 1, first MOST_PSI[i] nohead front lc rgb INK lw 2.5
        set label 15 (phone ? PHONE_MOST[i] : WIDE_MOST[i]) at screen sx(LEFT + 6), sy(row_top(i) + HEAD + BODY * (PSI_HIGH - MOST_PSI[i]) / (PSI_HIGH - PSI_LOW) - 9) left noenhanced font NOTE_FACE tc rgb INK
    }
    if (LEAST_PSI[i] > 0) {
        set arrow 3 from graph 0, first LEAST_PSI[i] to graph 1, first LEAST_PSI[i] nohead front lc rgb INK lw 1.5
        set label 16 (phone ? PHONE_LEAST[i] : WIDE_LEAST[i]) at screen sx(LEFT + 6), sy(row_top(i) + HEAD + BODY * (PSI_HIGH - LEAST_PSI[i]) / (PSI_HIGH - PSI_LOW) + 10) left noenhanced font NOTE_FACE tc rgb INK
    }
    if (i == ROWS) {
        do for [k=1:FOOTS] { set label 200+k foot(k) at screen sx(PAD_PX), sy(foot_y(k)) left noenhanced font NOTE_FACE tc rgb INK }
    }
    plot 'pressure-over-time.csv' using ($1==i && $2==1 && $6>0 ? $4-3*PX_S : NaN):6:(0):($7-$6) skip 1 with vectors nohead lw 2 lc rgb colour(1), \
         'pressure-over-time.csv' using ($1==i && $2==2 && $6>0 ? $4+3*PX_S : NaN):6:(0):($7-$6) skip 1 with vectors nohead lw 2 dt 2 lc rgb colour(2), \
         'pressure-over-time.csv' using ($1==i && $2==1 ? $4 : NaN):5 skip 1 with linespoints pt 7 ps 0.6 lw 2 lc rgb colour(1), \
         'pressure-over-time.csv' using ($1==i && $2==2 ? $4 : NaN):5 skip 1 with linespoints pt 5 ps 0.6 lw 2 dt 2 lc rgb colour(2)
    unset label
    unset arrow
}
unset multiplot
