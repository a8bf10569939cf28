//go:build !purego

#include "textflag.h"

// A sweep takes eight nodes at a time as long as none of them has a new extreme or lies beyond the series. Eight with such a node, which
// are rare, and the last of the pipe go through the part named careful, four at a time and under masks.
//
//	SI p   DI m   R8 max   R9 min   R10 maxAt   R11 minAt   R12 warn
//	AX node   BX nodes   CX last start of eight   R13 end of the careful part   DX not zero: a node is low
//	Y9 all bits but the sign   Y10 largest |s| of the series   Y11..Y15 its coefficients, the last first
//
// Comparisons: 0x1e greater than, 0x11 less than, both false for NaN.

#define CONSTANT(name, x) \
	DATA  name<>+0x00(SB)/8, x \
	DATA  name<>+0x08(SB)/8, x \
	DATA  name<>+0x10(SB)/8, x \
	DATA  name<>+0x18(SB)/8, x \
	GLOBL name<>(SB), RODATA|NOPTR, $32

CONSTANT(one, $1.0)
CONSTANT(two, $2.0)
CONSTANT(four, $4.0)

// n lanes start at 32 - 8n.
DATA lanes<>+0x00(SB)/8, $-1
DATA lanes<>+0x08(SB)/8, $-1
DATA lanes<>+0x10(SB)/8, $-1
DATA lanes<>+0x18(SB)/8, $-1
DATA lanes<>+0x20(SB)/8, $0
DATA lanes<>+0x28(SB)/8, $0
DATA lanes<>+0x30(SB)/8, $0
GLOBL lanes<>(SB), RODATA|NOPTR, $56

// SERIES: S = P - M, A = |S|, E = d/S.
#define SERIES(P, M, S, A, E) \
	VSUBPD       M, P, S     \
	VANDPD       Y9, S, A    \
	VMOVAPD      Y12, E      \
	VFNMADD231PD A, Y11, E   \
	VFNMADD213PD Y13, A, E   \
	VFNMADD213PD Y14, A, E   \
	VFNMADD213PD Y15, A, E   \
	VMULPD       A, E, E

// FRICTION: P - d and M + d.
#define FRICTION(P, M, S, E) \
	VFNMADD231PD E, S, P \
	VFMADD231PD  E, S, M

// HALF: four of the eight nodes, at o bytes from the first, in P and M. Y2 gathers those that need care.
#define HALF(o, P, M) \
	VMOVUPD o(SI)(AX*8), P             \
	VMOVUPD o(DI)(AX*8), M             \
	VADDPD  M, P, Y5                   \
	VCMPPD  $0x1e, o(R8)(AX*8), Y5, Y6 \
	VCMPPD  $0x11, o(R9)(AX*8), Y5, Y7 \
	VORPD   Y6, Y2, Y2                 \
	VORPD   Y7, Y2, Y2                 \
	SERIES(P, M, Y5, Y6, Y7)           \
	FRICTION(P, M, Y5, Y7)             \
	VCMPPD  $0x1e, Y10, Y6, Y6         \
	VORPD   Y6, Y2, Y2

// func advance(p, m, max, min *float64, maxAt, minAt *int32, warn *float64, n int, step int32, c *coefficients) bool
TEXT ·advance(SB), NOSPLIT, $0-81
	MOVQ         p+0(FP), SI
	MOVQ         m+8(FP), DI
	MOVQ         max+16(FP), R8
	MOVQ         min+24(FP), R9
	MOVQ         maxAt+32(FP), R10
	MOVQ         minAt+40(FP), R11
	MOVQ         warn+48(FP), R12
	MOVQ         n+56(FP), BX
	MOVQ         c+72(FP), R13
	VBROADCASTSD 0(R13), Y15
	VBROADCASTSD 8(R13), Y14
	VBROADCASTSD 16(R13), Y13
	VBROADCASTSD 24(R13), Y12
	VBROADCASTSD 32(R13), Y11
	VBROADCASTSD 40(R13), Y10
	VPCMPEQD     Y9, Y9, Y9
	VPSRLQ       $1, Y9, Y9
	XORL         AX, AX
	XORL         DX, DX
	LEAQ         -8(BX), CX

start:
	CMPQ AX, CX
	JGT  rest

eight:
	VXORPD    Y2, Y2, Y2
	HALF(0, Y0, Y1)
	HALF(32, Y3, Y4)
	VMOVMSKPD Y2, R14
	TESTL     R14, R14
	JNZ       rare
	VMOVUPD   Y0, (SI)(AX*8)
	VMOVUPD   Y1, (DI)(AX*8)
	VMOVUPD   Y3, 32(SI)(AX*8)
	VMOVUPD   Y4, 32(DI)(AX*8)
	ADDQ      $8, AX
	CMPQ      AX, CX
	JLE       eight
	JMP       rest

rare:
	LEAQ 8(AX), R13
	JMP  careful

rest:
	MOVQ BX, R13
	CMPQ AX, BX
	JGE  done

careful:
	// Y6: the lanes before the end of the pipe.
	LEAQ lanes<>(SB), R15
	MOVQ BX, R14
	SUBQ AX, R14
	CMPQ R14, $4
	JGE  load
	SHLQ $3, R14
	SUBQ R14, R15
	ADDQ $32, R15

load:
	VMOVUPD    (R15), Y6
	VMASKMOVPD (SI)(AX*8), Y6, Y0
	VMASKMOVPD (DI)(AX*8), Y6, Y1
	SERIES(Y0, Y1, Y2, Y4, Y5)
	VCMPPD     $0x1e, Y10, Y4, Y7
	VMOVMSKPD  Y7, R14
	TESTL      R14, R14
	JZ         friction

	// The root form u c^2, c = 2/(1 + sqrt(1 + 4u)), in the lanes of Y7.
	VMULPD      Y4, Y15, Y4
	VMOVUPD     four<>(SB), Y3
	VFMADD213PD one<>(SB), Y4, Y3
	VSQRTPD     Y3, Y3
	VADDPD      one<>(SB), Y3, Y3
	VMOVUPD     two<>(SB), Y6
	VDIVPD      Y3, Y6, Y3
	VMULPD      Y3, Y4, Y4
	VMULPD      Y3, Y4, Y4
	VBLENDVPD   Y7, Y4, Y5, Y5
	VMOVUPD     (R15), Y6

friction:
	VADDPD     Y1, Y0, Y3
	FRICTION(Y0, Y1, Y2, Y5)
	VMASKMOVPD Y0, Y6, (SI)(AX*8)
	VMASKMOVPD Y1, Y6, (DI)(AX*8)

	// A lane past the end has head zero and extremes zero: never a new one.
	VMASKMOVPD   (R8)(AX*8), Y6, Y4
	VMASKMOVPD   (R9)(AX*8), Y6, Y5
	VCMPPD       $0x1e, Y4, Y3, Y4
	VCMPPD       $0x11, Y5, Y3, Y5
	VMOVMSKPD    Y4, R14
	TESTL        R14, R14
	JZ           lowest
	VMASKMOVPD   Y3, Y4, (R8)(AX*8)
	VEXTRACTF128 $1, Y4, X7
	VSHUFPS      $0x88, X7, X4, X7
	VBROADCASTSS step+64(FP), X6
	VMASKMOVPS   X6, X7, (R10)(AX*4)

lowest:
	VMOVMSKPD    Y5, R14
	TESTL        R14, R14
	JZ           next
	VMASKMOVPD   Y3, Y5, (R9)(AX*8)
	VEXTRACTF128 $1, Y5, X7
	VSHUFPS      $0x88, X7, X5, X7
	VBROADCASTSS step+64(FP), X6
	VMASKMOVPS   X6, X7, (R11)(AX*4)
	VMASKMOVPD   (R12)(AX*8), Y5, Y7
	VCMPPD       $0x11, Y7, Y3, Y7
	VANDPD       Y5, Y7, Y7
	VMOVMSKPD    Y7, R14
	ORL          R14, DX

next:
	ADDQ $4, AX
	CMPQ AX, R13
	JLT  careful
	CMPQ AX, BX
	JLT  start

done:
	VZEROUPPER
	TESTL DX, DX
	SETNE ret+80(FP)
	RET
