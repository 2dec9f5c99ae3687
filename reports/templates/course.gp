# --- The road, the wind on it, and where flats lie -----------------------------------------
PANEL = phone ? 96 : 110
THIN = phone ? 56 : 64
CAPTION = 24
FOOT = 44
HEIGHT = 4 + CAPTION + PANEL + CAPTION + THIN + CAPTION + THIN + FOOT
LEFT = 50
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set multiplot
set lmargin at screen sx(LEFT)
set rmargin at screen 1 - sx(PAD_PX)
set xrange [0:LENGTH_KM]
KM_TICKS = phone ? PHONE_KM_TICKS : WIDE_KM_TICKS
BARE = phone ? PHONE_KM_TICKS_BARE : WIDE_KM_TICKS_BARE
set grid xtics lc rgb GRID lt 1 lw 1
set xtics scale 0 offset 0,0.3 font NOTE_FACE textcolor rgb INK
set xtics (@BARE)
set ytics scale 0 font NOTE_FACE textcolor rgb INK
do for [k=1:ROUGH] {
    set object k rectangle from first ROUGH_FROM[k], graph 0 to first ROUGH_TO[k], graph 1 fc rgb (dark ? '#4A3A22' : '#F6E3C8') fs solid 1 noborder behind
}
set tmargin at screen sy(4 + CAPTION)
set bmargin at screen sy(4 + CAPTION + PANEL)
set label 1 HEIGHT_TEXT at screen sx(PAD_PX), sy(4 + 0.5*CAPTION) left noenhanced font FACE tc rgb INK
set yrange [HEIGHT_LOW:HEIGHT_HIGH]
set ytics (@HEIGHT_TICKS)
plot 'profile.csv' using 1:2 skip 1 with filledcurves y1=HEIGHT_LOW fc rgb MUTED fs solid 0.25 noborder, \
     'profile.csv' using 1:2 skip 1 with lines lw 1.5 lc rgb INK
unset label
set tmargin at screen sy(4 + 2*CAPTION + PANEL)
set bmargin at screen sy(4 + 2*CAPTION + PANEL + THIN)
set label 1 WIND_TEXT at screen sx(PAD_PX), sy(4 + 1.5*CAPTION + PANEL) left noenhanced font FACE tc rgb INK
set yrange [-WIND_MOST:WIND_MOST]
set ytics (@WIND_TICKS)
set arrow 1 from first 0, first 0 to first LENGTH_KM, first 0 nohead lc rgb MUTED lw 1
plot 'profile.csv' using 1:($3>0 ? $3 : 0) skip 1 with filledcurves y1=0 fc rgb colour(2) fs solid 0.55 noborder, \
     'profile.csv' using 1:($3<0 ? $3 : 0) skip 1 with filledcurves y1=0 fc rgb colour(1) fs solid 0.25 noborder, \
     'profile.csv' using 1:3 skip 1 with lines lw 1.2 lc rgb INK
unset label
unset arrow
set tmargin at screen sy(4 + 3*CAPTION + PANEL + THIN)
set bmargin at screen sy(4 + 3*CAPTION + PANEL + 2*THIN)
set label 1 FLAT_TEXT at screen sx(PAD_PX), sy(4 + 2.5*CAPTION + PANEL + THIN) left noenhanced font FACE tc rgb INK
set label 2 'km' at screen 0.5 + 0.5*(sx(LEFT)-sx(PAD_PX)), sy(HEIGHT - 9) center font NOTE_FACE tc rgb INK
set yrange [0:FLAT_MOST]
set ytics (@FLAT_TICKS)
set xtics (@KM_TICKS)
plot 'profile.csv' using 1:4 skip 1 with filledcurves y1=0 fc rgb colour(4) fs solid 0.35 noborder, \
     'profile.csv' using 1:4 skip 1 with lines lw 1.2 lc rgb colour(4)
unset multiplot
