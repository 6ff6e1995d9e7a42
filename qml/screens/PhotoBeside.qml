// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Two pictures, the earlier one left or above, whichever shows them larger.
//   beforeUrl, afterUrl, beforeText, afterText
Item {
    id: root

    property url beforeUrl
    property url afterUrl
    property string beforeText: ""
    property string afterText: ""

    readonly property real proportion: one.proportion
    readonly property bool stacked: Math.min(width, (height - Theme.gap) / 2 * proportion) > Math.min((width - Theme.gap) / 2, height * proportion)
    readonly property real cellWidth: Math.floor(stacked ? width : (width - Theme.gap) / 2)
    readonly property real cellHeight: Math.floor(stacked ? (height - Theme.gap) / 2 : height)

    component Side: Item {
        id: side

        property url source
        property string text: ""
        readonly property real proportion: picture.implicitHeight > 0 ? picture.implicitWidth / picture.implicitHeight : 4 / 3

        width: root.cellWidth
        height: root.cellHeight

        Image {
            id: picture

            anchors.fill: parent
            source: side.source
            // As large as it can become, so that it is not read again when the two change places.
            sourceSize.width: root.width
            sourceSize.height: root.height
            asynchronous: true
            fillMode: Image.PreserveAspectFit
        }

        PhotoCaption {
            x: (side.width - picture.paintedWidth) / 2 + Theme.half
            y: (side.height - picture.paintedHeight) / 2 + Theme.half
            visible: text.length > 0 && picture.status === Image.Ready
            most: picture.paintedWidth - 2 * Theme.half
            text: side.text
        }

        Waiting {
            anchors.centerIn: parent
            visible: picture.status === Image.Loading
            text: qsTr("Fetching the photo")
        }

        Label {
            anchors.centerIn: parent
            visible: picture.status === Image.Error
            width: Math.min(implicitWidth, parent.width)
            text: qsTr("This photo cannot be shown. Its hash stays on record; tell whoever looks after the kiosk.")
            wrapMode: Text.WordWrap
            paper: false
        }
    }

    Side {
        id: one

        source: root.beforeUrl
        text: root.beforeText
    }

    Side {
        x: root.stacked ? 0 : root.width - width
        y: root.stacked ? root.height - height : 0
        source: root.afterUrl
        text: root.afterText
    }
}
