import numpy as np, sys, re, math
from scipy.optimize import least_squares
def sigma(L):
    b=0.3+0.2*math.ceil(L/1000); 
    return math.sqrt((b/math.sqrt(3))**2+0.5**2+(0.5/math.sqrt(3))**2)
def run(tokens, pts, edges):
    obs=[]
    for t in tokens.replace(',',' ').split():
        m=re.match(r'([A-Z])([A-Z])=(\d+)',t); obs.append((m[1],m[2],float(m[3])))
    names=sorted(pts); x0=[]
    free=[(n,i) for n in names for i in (0,1) if not (n=='A' or (n=='B' and i==1))]
    def place(x):
        P={'A':[0,0],'B':[0,0]}
        for (n,i),v in zip(free,x): P.setdefault(n,[0,0])[i]=v
        return P
    def f(x):
        P=place(x); return [(math.dist(P[a],P[b])-d)/sigma(d) for a,b,d in obs]
    r=least_squares(f,[pts[n][i] for n,i in free],xtol=1e-15,ftol=1e-15,gtol=1e-15)
    P=place(r.x); print({e:round(math.dist(P[e[0]],P[e[1]]),8) for e in edges.split()}, 'sum',2*r.cost)
ed='AB BC CD DE EF FA'
fl={'A':(0,0),'B':(5210,0),'C':(5322,2481),'D':(3652,2509),'E':(3640,3894),'F':(58,3941)}
run('AB=5210, BC=2484, CD=1670, DE=1385, EF=3582, FA=3942, AC=5873, AD=4431, AE=5331, BD=2953, BF=6487, DF=3870',fl,ed)
run('AB=5210, BC=2484, CD=1670, DE=1385, EF=3582, FA=3942, AC=5873, AD=4431, AE=5331, BD=3053, BF=6487, DF=3870',fl,ed)
hb={'A':(0,0),'B':(640,0),'C':(655,241),'D':(420,255),'E':(420,425),'F':(0,418)}
run('AB=640, BC=241, CD=236, DE=175, EF=422, FA=418,AC=697, AD=491, AE=594, BD=337, BF=774, DF=462',hb,ed)
