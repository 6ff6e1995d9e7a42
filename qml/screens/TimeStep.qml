// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A time of day, a step earlier or later with each touch.
//   title, minute (of the day), least, most, step;  signal chosen(minute)
Row {
    id: root

    property string title: ""
    required property int minute
    property int least: 0
    property int most: 24 * 60
    property int step: 30

    signal chosen(int minute)

    function words(minute: int): string {
        const hour = Math.floor(minute / 60)
        const rest = minute % 60
        return (hour < 10 ? "0" : "") + hour + ":" + (rest < 10 ? "0" : "") + rest
    }

    spacing: Theme.gap

    Label {
        width: Theme.mm(24)
        height: Theme.touch
        verticalAlignment: Text.AlignVCenter
        text: root.title
        muted: true
    }

    ActionButton {
        paper: true
        text: qsTr("earlier")
        available: root.minute - root.step >= root.least
        onTapped: root.chosen(root.minute - root.step)
    }

    Label {
        width: Theme.mm(36)
        height: Theme.touch
        horizontalAlignment: Text.AlignHCenter
        verticalAlignment: Text.AlignVCenter
        text: root.words(root.minute)
        role: Label.Title
        strong: true
    }

    ActionButton {
        paper: true
        text: qsTr("later")
        available: root.minute + root.step <= root.most
        onTapped: root.chosen(root.minute + root.step)
    }
}
