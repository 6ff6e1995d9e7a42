// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The stretches of work on an operation, one below the other.
//   segments;  signal tapped(int segmentId, int minutes): its minutes are to be put right
Column {
    id: root

    required property SegmentsModel segments

    signal tapped(int segmentId, int minutes)

    visible: lines.count > 0
    spacing: Theme.half

    Label {
        text: qsTr("Time so far")
        muted: true
    }

    Repeater {
        id: lines

        model: root.segments

        delegate: SegmentLine {
            width: root.width
            onTapped: root.tapped(segmentId, minutes)
        }
    }
}
