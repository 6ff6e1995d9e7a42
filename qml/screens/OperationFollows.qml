// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What opens when an operation closes, and the names under it.
//   view
Column {
    id: root

    required property OperationView view

    spacing: Theme.half

    Label {
        visible: root.view.opensWords.length > 0
        text: qsTr("Opens when this closes")
        muted: true
        role: Label.Detail
    }

    Repeater {
        model: root.view.opensWords

        delegate: Label {
            required property string modelData

            width: root.width
            text: modelData
            role: Label.Detail
            wrapMode: Text.WordWrap
        }
    }

    Repeater {
        model: root.view.signatureWords

        delegate: Label {
            required property string modelData

            width: root.width
            text: modelData
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }
    }
}
