"""Lists from China: 筒体, 内径, full-width digits and signs, Q235B and Q345R that the shop may not know."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, MEAN, OD
from tests.data.sheet_parts import arc, ask, cone, cyl, flat, ignore, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "询价单_筒体", "xlsx", "zh-CN", "full-width digits and marks, 合计, 作废, dates with 年月日",
        r("询价单　虚构容器厂（虚构）", None, None, None, None, None, None, None),
        r("序号", "名称", "数量", "内径", "板厚", "长度", "材质", "交货期"),
        p(cyl(1200, ID, 8, 2000, 2, "S235JR", due=date(2026, 12, 18)), 1, "筒体", 2, 1200, 8, 2000, "S235JR", "2026年12月18日"),
        p(cyl(1600, ID, 10, 1500, 1, "P265GH", due=date(2026, 12, 25)), 2, "筒体", "１", "１６００", "１０", "１５００", "P265GH", "2026/12/25"),
        p(cyl(800, ID, 4.5, 1000, 3, "304/304L|304", due=date(2026, 12, 25)), 3, "筒体", "3件", "800", "4.5", "1000", "304", "2026-12-25"),
        p(ignore("作废"), 4, "筒体", 1, 900, 8, 500, "S235JR", "作废"),
        p(line_or_ask("a Chinese grade that the shop may not have", cyl(1000, ID, 12, 1800, 2, "Q345R", due=date(2027, 1, 8)), doubts=("material",)), 5, "筒体", 2, 1000, 12, 1800, "Q345R", "2027/1/8"),
        p(ignore("合计"), "合计", None, 9, None, None, None, None, None),
    ),
    sheet(
        "弧板与锥筒", "csv", "zh-CN", "弧板 by angle and by flat size, 锥筒 with 大口 and 小口, 偏心锥",
        r("件号", "名称", "规格", "数量", "材料", "备注"),
        p(arc(800, ID, 90, 10, 1200, 4, "S355J2"), "1", "弧板", "内R800 角度90° δ=10 宽1200", "4", "S355J2", ""),
        p(flat(1500, 1000, MEAN, 8, 1000, 2, "S235JR"), "2", "弧板", "中性层R1000 展开长度1500 δ8 宽1000", "2", "S235JR", ""),
        p(cone(1200, 600, ID, 700, 8, 1, "S235JR"), "3", "锥筒", "大口内径1200 小口内径600 高700 δ=8", "1", "S235JR", ""),
        p(ask("偏心锥", "eccentric"), "4", "偏心锥", "大口内径800 小口内径400 高500 δ=6", "1", "S235JR", ""),
        p(ask("φ alone", "basis"), "5", "卷管", "φ820×10 L=2000", "2", "S235JR", ""),
        p(ask("来料加工", "free issue", "material"), "6", "筒体", "内径900 δ=8 长1000", "2", "S235JR", "来料加工"),
        p(ask("天圆地方", "not rolled", "shape", or_left_out=True), "7", "天圆地方", "600×600/φ400 高500 δ=4", "1", "S235JR", ""),
        encoding="gb18030",
    ),
    sheet(
        "bilingual_vessel_list", "xlsx", "zh-CN", "two languages in each heading",
        r("Rolling list 卷制清单 (invented works 虚构)"),
        r("No. 序号", "Part 名称", "Qty 数量", "OD 外径 mm", "THK 厚度 mm", "Length 长度 mm", "Material 材质", "Remark 备注"),
        p(cyl(610, OD, 8, 1200, 6, "S355J2"), 1, "pipe 卷管", "6", "610", "8", "1200", "S355J2", None),
        p(cyl(813, OD, 12, 1500, 2, "S355J2", say="bevel"), 2, "pipe 卷管", "2", "813", "12", "1500", "S355J2", "两端坡口 30°"),
        p(cyl(1016, OD, 16, 2000, 1, "S355J2"), 3, "pipe 卷管", "1", "1016", "16", "2000", "S355J2", "不开坡口"),
        p(ask("暂停", "status"), 4, "pipe 卷管", "1", "914", "16", "2000", "S355J2", "暂停"),
        p(arc(406.5, OD, 180, 10, 800, 4, "S355J2"), 5, "half shell 半圆", "4", "813", "10", "800", "S355J2", None),
    ),
)  # fmt: skip
