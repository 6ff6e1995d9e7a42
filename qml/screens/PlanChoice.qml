// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One row of a planned job's choices; the view marks the chosen one.
//   title, choices;  signal said(choiceId)
Row {
    id: root

    required property string title
    required property Choices choices

    signal said(string choiceId)

    spacing: Theme.module

    Label {
        id: head

        width: Theme.mm(20)
        height: Theme.touch
        verticalAlignment: Text.AlignVCenter
        text: root.title
        muted: true
    }

    Flow {
        width: root.width - head.width - root.spacing
        spacing: Theme.gap

        Repeater {
            model: root.choices

            delegate: ChoiceChip {
                required property string choiceId
                required property string title
                required property bool chosen

                text: title
                selected: chosen
                onTapped: root.said(choiceId)
            }
        }
    }
}
