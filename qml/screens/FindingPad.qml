// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The pad for a figure of a finding that is not always said.
//   draft;  figure: "count" (how many there are), "size" (in mm), or anything else: no pad
NumberPad {
    id: root

    required property FindingDraft draft
    property string figure: ""
    readonly property bool counts: figure === "count"

    visible: counts || figure === "size"
    key: Theme.mm(20)
    digits: counts ? 3 : 4
    unit: counts ? qsTr("of them") : qsTr("mm")
    // What hangs on the figure may not have changed with it yet.
    onFigureChanged: text = figure === "count" ? draft.countText : draft.sizeText
    onEdited: text => {
        if (root.counts)
            root.draft.countText = text
        else
            root.draft.sizeText = text
    }
}
