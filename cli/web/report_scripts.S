# The bundled chart script as it is, byte for byte, between two symbols (cli/report_scripts.cpp).
  .section .rodata
  .global likelihet_report_scripts
  .hidden likelihet_report_scripts
likelihet_report_scripts:
  .incbin "report.min.js"
  .global likelihet_report_scripts_end
  .hidden likelihet_report_scripts_end
likelihet_report_scripts_end:
  .byte 0
  .section .note.GNU-stack, "", %progbits
