//go:build !purego

#include "textflag.h"

// func recall(past *[terms]float64, dq, z *float64, n int, e, b *[terms]float64)
//
// Y0, Y1: e; Y2, Y3: b; Y4, Y5: the past of a node.
TEXT ·recall(SB), NOSPLIT, $0-48
	MOVQ past+0(FP), DI
	MOVQ dq+8(FP), SI
	MOVQ z+16(FP), DX
	MOVQ n+24(FP), CX
	MOVQ e+32(FP), AX
	MOVQ b+40(FP), BX
	VMOVUPD (AX), Y0
	VMOVUPD 32(AX), Y1
	VMOVUPD (BX), Y2
	VMOVUPD 32(BX), Y3

node:
	VBROADCASTSD (SI), Y6
	VMULPD Y2, Y6, Y4
	VMULPD Y3, Y6, Y5
	VADDPD (DI), Y4, Y4
	VADDPD 32(DI), Y5, Y5
	VMULPD Y0, Y4, Y4
	VMULPD Y1, Y5, Y5
	VMOVUPD Y4, (DI)
	VMOVUPD Y5, 32(DI)
	VADDPD Y5, Y4, Y4
	VEXTRACTF128 $1, Y4, X5
	VADDPD X5, X4, X4
	VUNPCKHPD X4, X4, X5
	VADDSD X5, X4, X4
	VMOVSD X4, (DX)
	ADDQ $64, DI
	ADDQ $8, SI
	ADDQ $8, DX
	DECQ CX
	JNZ node

	VZEROUPPER
	RET
