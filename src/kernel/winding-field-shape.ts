/**
 * Chebyshev coefficients, 1e-5, of the field of a coil of rectangular section in its own section (see winding-field):
 * a row per degree in ln(h/w) / 8; in it, per degree in 1 + ln(w/r2) / 4, seven numbers: mean square over the section,
 * then B_r and B_z at the three Gauss radii, a fifth of the height above the plate-side face.
 * Made by test/fixtures/winding-field-shape.py. Packed: `unpackIntegers` makes each row of it.
 */
// biome-ignore format: made by a script
export const WINDING_FIELD_SHAPE: readonly string[] = [
  'tN9tR|td4tS~z$[wt[osu?pbwq1Xq/yq.kuGDtK!skHfGd?f`h6qiZpuapG/d*d3aTAq8NpQLp1Ba}hJe}dkpl>p5@o!b(a!ahbQpHsl#Vavbka-Bp8Hfg@abb@_Jp-Jce5ata%?Ip#;aZ?aUa9/+m+X4a?a!)%iTB"a.F((fu+$YD##e!!(K9!!cc!!A1""ba!!6-!!au"".)!!a@!!(#!!N!!',
  'p^-s/%s3Rs/;t"kshJs;ud(qRRqS)qRopJjpG%q-mq)Ap;Ap:hp:xsMIrD|qj`pX"d4cQcSqdhphKpA?p4*g+gsg}p{Sp2Mfrp)^f0eCe4pczp*.hMkE*]a+pGWi$Qe01a+a3p6dcra3bhada4a.p-:b`*a$837p#laG##6--mI=79G..ip2)F2#%g8,"D.##e6#%>.""cj##7(!!bb!!1$!!aj#!)"!!a"!!',
  'q*@p(epF1p*NrD5qh%q3/c_cC=b/p90p;(p4Wp@fp_.pZ*pW4purpz8pvKc:f.aOb+p,Fp#Zp$cfuDe#g;p%7lFku1jhg.ebeVbjcdasbhLaXi#b5aFasb*La5gXasa;Rb|a?a,e+18NaE5>d11(>a2+/cN;/-a0..b])!+M%%b!!$%A##a_%#!:""a;#!!0!!]!"',
  'n5p*4p3vp*^k%nop)PnhpV[pWnpW6pdlp{zq.Egrp>Gp?Up>~p"ufAp$=p,>p)ep(9p(Hph#pPupFRo]hcfwfcp5}p!1hycocfeUevo#*dpcPdDbabDo3d+a]b)baa7a!jDb7Z;Pa$a2fJ5K/acH@di3,$a7/+cZ9+2N,.bR#$0R)%ao$(.D##aL##,7""a)!!*3!!N""',
  'pEUp.ofBp-_pc.p4Shqp)lp4Mp6.p7hp^EpZ~p_Ecin5kJi/p2}p6%p3Np"Tp8_p5;p2ip1cp5yp4ca!dNa9aIoYjEjIdbbde=fUm"gYg"Seccic)d?a@a{Sb1L-dn:7a01a.a=d[a2S:aLJFc=8$0P%#bK#/.100b(*"";%%a^*$"/!!a8#%!)""`!!!)!!O""',
  'cYdDomdeeGdAd$f=g3hJg]XfajBi_p1/p29p1Jp1op8kp=_dLnwp!Bowl"dA0iQoCmOmCp1dp*Kp%4ejgUeQe,jxe$bl(agc_d%b|b!c>Ibpa4Wd(a$(KbdaCa2c.a*K1^JRaf$+/a8*"a.+1+a.0.^$$',
  'p0Dp%,fIp$MpE)oip!Sf}jwkclip5]p33p4)h-jNl!mXp!unaokcdm$jth~p"jp%.p$0gdp%0p"|p!=i6l"k^9af@aki#eqecbmc)d5dkg!cscP@b`a|adbgAa"+a=WObP*AFN_a!bLB3-2,,ay5-#,*,aF"(%/-+a/!"!%!!_%%',
  'aie-e.dydFbP-bRbOcIb[cXc>byKftg`fjiUj`k?e|oOp!Iojl.n0o6axdKelebgBdscTdHjPhmhRksiVhDbLe>cZc3cFa_TK^bKbh)aCaj,ai7#a!%./b%a/a!Z;5.R4:7)%,P$*(**(R-+$""',
  'p!6n9esm{p2xi,mXcMfCfYg6p"8o.nbczevf[gUn*lGlIbvbbcre,b?[aCbsi_h;f}hLimiHcZjZiNhNb9cmcaK:a:apdnc.b~a^bdb|c4cIanaY,a3a1a+aY)9%HPPa?+50WIIa6("$4$"a*.*#(+-M!!',
  'UfCaifAdIbI@a*6DAa:bAbh4b)bPacbDaeaHaseRe{e;fwfmfkc>g{hehDdDdie+D-aVa_d"cCbrb?fxe^eAdKcpcEa0c=b.alW8%HJacauBLV1a$!--)-$aESM%($',
  'hshrdWhlp%+dojla}cgcgd!j>hegmb!cccydHgwf_f1b)c/cedHdwd!cyVEJaZa6avafazfKebdtcYd=d,aheEdvdC)a"`Ha;aFa]bJaZaRa#b/b#b)aXRH#6KK]#$*,CEJ"()P;9@"$',
  '1e%*e-boaZ:>a1RaHa-b1bX%2C;a0)NEazb*aObdb(ajaUcxd4cjc`cAc8abczdQdGaMaEaO+aJ@1b#a{aiaBdFcVc>aTaPa@@awa5a!,$0=Ca4a?8,.,>(,6((#VB>4$"',
  'dveLc@eNl8bjg@a.b2b*b0etdlcva2bGbIbWdhcpc6a0b=bOblc?b`bEa"aWa|bKaWa0a,+aL]+a5aRaLa>d)ccc7aJagaaZb]bPb7I*(=aAa6a?a0OKAaUaAa?E*$',
  '"cbGchaxa.7$a(Ya?UaWan!A?a(7Ka"1JH(a>F1Hacaga@aoaDa5a)bZbkbVaiaLaHVaub>b;7%+2aUa"UYa$^Qbbb4a~.82,a*E85+-3>TZ-$"',
  'bgc8bEc?gFa_dhJaFa;a9cJbgb#JaPaJaJbmb5acHaZa]aeb+a]a@FaJaXakaFa)Z7Ha!a@9)#4aIa0MIWUQbMb?b$6AA8a:a:a0B533a1a!a!7-+3a+VT%$(',
  '#bHHbPa@N0"XVa-Ja-a7"FHa!#HR(%-JC#/.ME(Y:2:aCaCa,a$IEEa`aja`Q=:4Ua0a2!111a@_T-779a_aDa92((',
  'a[ayaib!dMa$c+6SMGb"a[a.4^WQaba?Y4a(a$`a?`I2a*a.a0^I:0Ua"a0A2,$"4G")+1a3a#P-35;aPaLa>($"+>D@20.,WKK%%%*K=:))+',
  '#aKEaQI:(#GIS?KO#?CQ*:=%06G-*,)+!49%!+HB/>-+1a#a#V;-+3a%a/a+/!")/>B!..,`OG+!".a"SM7//',
  'a!a:a=a?bRFal-;71a9a#H-B;5a%R;+JD>RB1+NLHD5++LNP7+#)9BJ+#"!."-#$(,UOE#!".WWQ//-',
  '"X;];1!',
  'CP_TaQ4a/(,*$ME4',
  '',
  '5=I?_-K',
];
